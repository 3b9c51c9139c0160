import type { BaselineRun } from "../../src/evidence/faults/baseline.ts";
import { branchesOf, type FaultName } from "../../src/evidence/faults/hypotheses.ts";
import {
  type Move,
  moved,
  type Nuisance,
  nuisanceNames,
  ofTheDay,
  priorSpread,
} from "../../src/evidence/faults/nuisances.ts";
import { predict } from "../../src/evidence/faults/predict.ts";
import {
  type FaultQuantity,
  type FaultReading,
  outer,
  placeOf,
  usualMetal,
  usualUncertainty,
} from "../../src/evidence/faults/quantities.ts";
import { normal, type Random } from "../../src/numerics/index.ts";
import {
  applies,
  type Conditions,
  createRunWork,
  type ParameterName,
  parameterNames,
  plausibleRange,
  presetNames,
  presetVehicle,
  pureComposition,
  saturationOf,
  type VehicleCase,
} from "../../src/vehicle/index.ts";

/** A vehicle with a fault that nobody told the diagnosis about. */
export interface HiddenFault {
  readonly fault: FaultName;
  readonly severity: number;
  /** As the tester describes it: a sound preset in the conditions as they were read. */
  readonly healthy: VehicleCase;
  readonly readings: readonly FaultReading[];
  /** Runs of the same vehicle while it was sound, in other weather. */
  readonly baseline: readonly BaselineRun[];
}

/** Parameters that the lumps move, and those that are known: they are not drawn a second time. */
const inLumps: readonly ParameterName[] = [
  "labelCharge",
  "switchOpens",
  "switchCloses",
  "suctionSetting",
  "finTemperature",
  "fanFlow",
  "preheat",
  "recirculationShare",
  "ramFactor",
  "condenserAirUA",
  "condenserTwoPhaseUA",
  "evaporatorAirUA",
  "evaporatorTwoPhaseUA",
  "displacement",
  "cyclingHead",
  "condenserVolume",
  "evaporatorVolume",
  "liquidLineVolume",
  "dischargeLineVolume",
  "suctionLineVolume",
  "bufferVolume",
  "orificeArea",
  "valveSpring",
  "subcoolArea",
  "airFlow",
];
const tries = 60;

/**
 * Draws a hidden vehicle: lumps from their priors, every other parameter from the middle half of its plausible range,
 * physics that the fitted model has no lump for (oil in the evaporator, air badly spread over it, more pressure drop
 * in both lines), a fault of even chance and severity, readings with noise, and weather read with an error.
 */
export function hiddenFault(random: Random, fault: FaultName, withBaseline: boolean): HiddenFault {
  for (let k = 0; k < tries; k++) {
    const hidden = draw(random, fault, withBaseline);
    if (hidden) return hidden;
  }
  throw new Error("no hidden vehicle ran");
}

function draw(random: Random, wanted: FaultName, withBaseline: boolean): HiddenFault | undefined {
  const between = (from: number, to: number): number => from + (to - from) * random();
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  const vehicle = presetVehicle(pick(presetNames));
  const conditions = weather(between, random());
  const fill = {
    composition: pureComposition("R134a"),
    charge: vehicle.values.labelCharge,
    air: 0,
  };
  const told: VehicleCase = { vehicle, conditions, fill };
  const own = otherVehicle(told, random, between);
  const today = onItsDay(own, random);
  const request = today.request;
  const { vent } = own;
  const branches = branchesOf(request, vent);
  const branch = pick(branches.filter((one) => one.fault === wanted));
  const severity = between(branch.nodes[0] ?? 0, branch.nodes.at(-1) ?? 0);
  const label = saturationOf(fill.composition);
  if (label.kind !== "saturation") throw new Error(label.reason);
  const metal = conditions.ambient + between(-4, 4);
  const reader = { label, metal, work: createRunWork() };
  const truth = predict(branch.apply(severity), reader);
  const sound = predict({ request, ventOffset: vent }, reader);
  const healthy = asRead(told, random);
  if (!truth || !sound || !predict({ request: healthy, ventOffset: 0 }, reader)) return undefined;
  const readings = quantitiesRead(told, random).map((quantity): FaultReading => {
    const value = outer(quantity, truth.values[placeOf(quantity)] ?? 0);
    const read = value + usualUncertainty[quantity] * normal(random);
    return quantity === "static"
      ? { quantity, value: read, metal: metal + usualMetal * normal(random) }
      : { quantity, value: quantity === "duty" ? Math.min(1, Math.max(0, read)) : read };
  });
  const baseline = withBaseline ? soundRuns(own, reader, random, between) : [];
  return { fault: branch.fault, severity, healthy, readings, baseline };
}

/** One run or two at idle or on the road, before the fault. */
function soundRuns(
  own: { readonly request: VehicleCase; readonly vent: number },
  reader: Parameters<typeof predict>[1],
  random: Random,
  between: (from: number, to: number) => number,
): readonly BaselineRun[] {
  return [0.5, 0].slice(random() < 0.5 ? 0 : 1).flatMap((kind) => {
    const conditions = weather(between, kind);
    const { request } = onItsDay({ request: { ...own.request, conditions } }, random);
    const run = predict({ request, ventOffset: own.vent }, reader);
    if (!run) return [];
    const readings = (["low", "high", "vent"] as const).map((quantity) => ({
      quantity,
      value:
        outer(quantity, run.values[placeOf(quantity)] ?? 0) +
        usualUncertainty[quantity] * normal(random),
    }));
    return [{ conditions, readings }];
  });
}

function weather(between: (from: number, to: number) => number, kind: number): Conditions {
  const onRoad = kind < 0.2;
  return {
    ambient: 273.15 + between(21, 37),
    humidity: between(0.3, 0.65),
    pAir: 101325,
    speed: onRoad ? between(15, 25) : 0,
    engineSpeed: onRoad ? 28 : kind < 0.4 ? 25 : 12.5,
    blower: 1,
    recirculation: 1,
    returnAir: { kind: "pull-down", share: onRoad ? 0.85 : 0.45 },
    occupants: 1,
  };
}

function otherVehicle(
  told: VehicleCase,
  random: Random,
  between: (from: number, to: number) => number,
): { request: VehicleCase; vent: number } {
  const values: Record<ParameterName, number> = { ...told.vehicle.values };
  for (const name of parameterNames) {
    if (inLumps.includes(name) || !applies(told.vehicle, name)) continue;
    const { from, to } = plausibleRange(told.vehicle, name);
    const value = values[name];
    values[name] = value + 0.5 * (between(from, to) - value);
  }
  // Physics that no lump has.
  values.suctionResistance *= between(1, 2);
  values.dischargeResistance *= between(1, 2);
  values.evaporatorTwoPhaseUA *= between(0.85, 1);
  values.evaporatorAirExponent *= between(0.8, 1.2);
  values.volumetricEfficiency *= between(0.97, 1);
  const request: VehicleCase = { ...told, vehicle: { ...told.vehicle, values } };
  const lumps = drawn(told, random, (name) => !ofTheDay.includes(name));
  const there = moved(request, lumps);
  return { request: there.request, vent: between(0, 0.5) + there.vent };
}

const drawn = (told: VehicleCase, random: Random, takes: (name: Nuisance) => boolean): Move =>
  Object.fromEntries(
    nuisanceNames
      .map((name) => ({ name, sd: spreadOf(name, told) }))
      .filter(({ name }) => takes(name))
      .map(({ name, sd }) => [name, sd * Math.max(-2.5, Math.min(2.5, normal(random)))]),
  );

/** Every lump is drawn once for a vehicle, those that matter on the road only too. */
const spreadOf = (name: Nuisance, { conditions, ...rest }: VehicleCase): number =>
  priorSpread({ ...rest, conditions: { ...conditions, speed: 20 } }).find(
    (one) => one.name === name,
  )?.sd ?? 0;

/** The vehicle on one day: weather and cabin are not quite as they were read. */
const onItsDay = (own: { readonly request: VehicleCase }, random: Random) =>
  moved(
    own.request,
    drawn(own.request, random, (name) => ofTheDay.includes(name)),
  );

/** The lump "outside" has the error of the weather's reading already. */
const asRead = (told: VehicleCase, random: Random): VehicleCase => ({
  ...told,
  conditions: {
    ...told.conditions,
    humidity: Math.min(0.9, Math.max(0.1, told.conditions.humidity + 0.03 * normal(random))),
  },
});

/** What a careful tester takes from a run: all that gauges, thermometers and a watch can tell, and the pressure at rest. */
function quantitiesRead({ vehicle }: VehicleCase, random: Random): readonly FaultQuantity[] {
  const liquid = random() < 0.5 ? "subcooling" : "liquidLine";
  const chance: readonly (readonly [FaultQuantity, number])[] = [
    ["low", 1],
    ["high", 1],
    ["vent", 1],
    ["superheat", 1],
    [liquid, 1],
    ["discharge", 0.5],
    ["duty", vehicle.control === "displacement" ? 0 : 1],
    ["static", 1],
  ];
  return chance.filter(([, share]) => random() < share).map(([quantity]) => quantity);
}
