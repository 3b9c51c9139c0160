import { branchesOf, type FaultName, type Kind } from "../../src/evidence/faults/hypotheses.ts";
import {
  daySpread,
  type Move,
  moved,
  type Spread,
  vehicleSpread,
} from "../../src/evidence/faults/nuisances.ts";
import { predict, type Reader } from "../../src/evidence/faults/predict.ts";
import type { FaultQuantity, ReadRun } from "../../src/evidence/faults/quantities.ts";
import { normal, type Random } from "../../src/numerics/index.ts";
import {
  applies,
  type Composition,
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
import { type Between, drawInstruments, type Instruments } from "./instruments.ts";

/** A vehicle with a fault that nobody told the diagnosis about. */
export interface HiddenFault {
  readonly fault: FaultName;
  readonly severity: number;
  /** What is inside, where that is the fault. */
  readonly substitute?: Composition;
  /** As the tester describes it: a sound preset. */
  readonly healthy: Kind;
  /** In conditions as they were read. */
  readonly runs: readonly ReadRun[];
  /** Runs of the same vehicle while it was sound, in other weather. */
  readonly baseline: readonly ReadRun[];
}

export const runKinds = ["idle", "raised-idle", "road"] as const;
export type RunKind = (typeof runKinds)[number];

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
 *
 * @param kinds Runs that are read; one kind at random when it is left out.
 */
export function hiddenFault(
  random: Random,
  fault: FaultName,
  withBaseline: boolean,
  kinds?: readonly RunKind[],
): HiddenFault {
  for (let k = 0; k < tries; k++) {
    const hidden = draw(random, { wanted: fault, withBaseline, kinds: kinds ?? [anyKind(random)] });
    if (hidden) return hidden;
  }
  throw new Error("no hidden vehicle ran");
}

function anyKind(random: Random): RunKind {
  const x = random();
  return x < 0.2 ? "road" : x < 0.4 ? "raised-idle" : "idle";
}

interface Wanted {
  readonly wanted: FaultName;
  readonly withBaseline: boolean;
  readonly kinds: readonly RunKind[];
}

function draw(random: Random, { wanted, withBaseline, kinds }: Wanted): HiddenFault | undefined {
  const between: Between = (from, to) => from + (to - from) * random();
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  const vehicle = presetVehicle(pick(presetNames));
  const fill = {
    composition: pureComposition("R134a"),
    charge: vehicle.values.labelCharge,
    air: 0,
  };
  const healthy: Kind = { vehicle, fill };
  const own = otherVehicle(healthy, random, between);
  const label = saturationOf(fill.composition);
  if (label.kind !== "saturation") throw new Error(label.reason);
  // Runs of one day, so that the weather is nearly the same.
  const first = weather(between, kinds[0] ?? "idle");
  const metal = first.ambient + between(-4, 4);
  const reader: Reader = { label, metal, work: createRunWork() };
  const branch = pick(branchesOf(own.kind).filter((one) => one.fault === wanted));
  const severity = between(branch.nodes[0] ?? 0, branch.nodes.at(-1) ?? 0);
  const instruments = drawInstruments(random, between);
  const taken = quantitiesRead(healthy, random);
  const runs: ReadRun[] = [];
  for (const [k, kind] of kinds.entries()) {
    const told = k === 0 ? first : sameDay(first, weather(between, kind), between);
    const there = onItsDay(
      { request: { ...own.kind, conditions: told }, ventOffset: own.vent },
      random,
    );
    const truth = predict(branch.apply(severity, there), reader);
    const conditions = asRead(told, random);
    const usual = predict({ request: { ...healthy, conditions }, ventOffset: 0 }, reader);
    if (!truth || !predict(there, reader) || !usual) return undefined;
    // The pressure at rest is read once.
    const quantities = k === 0 ? taken : taken.filter((one) => one !== "static");
    runs.push({ conditions, readings: instruments.read(truth.values, quantities, reader) });
  }
  const before = random() < 0.5 ? instruments : drawInstruments(random, between);
  const baseline = withBaseline ? soundRuns(own, { reader, random, between }, before) : [];
  const { fault, substitute } = branch;
  return { fault, severity, ...(substitute && { substitute }), healthy, runs, baseline };
}

const sameDay = (first: Conditions, later: Conditions, between: Between): Conditions => ({
  ...later,
  ambient: first.ambient + between(-2, 2),
  humidity: first.humidity + between(-0.05, 0.05),
});

/** One run or two at idle or on the road, before the fault. */
function soundRuns(
  own: Own,
  { reader, random, between }: { reader: Reader; random: Random; between: Between },
  instruments: Instruments,
): readonly ReadRun[] {
  return (["idle", "road"] as const).slice(random() < 0.5 ? 0 : 1).flatMap((kind) => {
    const conditions = weather(between, kind);
    const there = onItsDay({ request: { ...own.kind, conditions }, ventOffset: own.vent }, random);
    const run = predict(there, reader);
    return run
      ? [{ conditions, readings: instruments.read(run.values, ["low", "high", "vent"], reader) }]
      : [];
  });
}

function weather(between: Between, kind: RunKind): Conditions {
  const onRoad = kind === "road";
  return {
    ambient: 273.15 + between(21, 37),
    humidity: between(0.3, 0.65),
    pAir: 101325,
    speed: onRoad ? between(15, 25) : 0,
    engineSpeed: onRoad ? 28 : kind === "raised-idle" ? 25 : 12.5,
    blower: 1,
    recirculation: 1,
    returnAir: { kind: "pull-down", share: onRoad ? 0.85 : 0.45 },
    occupants: 1,
  };
}

interface Own {
  readonly kind: Kind;
  readonly vent: number;
}

function otherVehicle(told: Kind, random: Random, between: Between): Own {
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
  // Moves of the vehicle's lumps do not look at its surroundings.
  const request: VehicleCase = {
    vehicle: { ...told.vehicle, values },
    fill: told.fill,
    conditions: weather(() => 0, "idle"),
  };
  const there = moved({ request, ventOffset: between(0, 0.5) }, drawn(vehicleSpread(told), random));
  const { vehicle, fill } = there.request;
  return { kind: { vehicle, fill }, vent: there.ventOffset };
}

const drawn = (spread: readonly Spread[], random: Random): Move =>
  Object.fromEntries(
    spread.map(({ name, sd }) => [name, sd * Math.max(-2.5, Math.min(2.5, normal(random)))]),
  );

/** The vehicle on one day: weather and cabin are not quite as they were read. */
const onItsDay = (own: Parameters<typeof moved>[0], random: Random) =>
  moved(own, drawn(daySpread(own.request), random));

/** The lump "outside" has the error of the weather's reading already. */
const asRead = (told: Conditions, random: Random): Conditions => ({
  ...told,
  humidity: Math.min(0.9, Math.max(0.1, told.humidity + 0.03 * normal(random))),
});

/** What a careful tester takes from a run: all that gauges, thermometers and a watch can tell, and the pressure at rest. */
function quantitiesRead({ vehicle }: Kind, random: Random): readonly FaultQuantity[] {
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
