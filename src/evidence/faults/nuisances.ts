import type { Conditions, ParameterName, VehicleCase } from "../../vehicle/index.ts";
import type { Faulty, Kind } from "./hypotheses.ts";

const PSI = 6894.757293168;

/** What differs from one sound vehicle of a kind to the next, lumped, and what is not known of the day. */
export const nuisanceNames = [
  "setPressure",
  "idleAir",
  "roadAir",
  "condenser",
  "evaporator",
  "compressor",
  "cyclingHead",
  "vent",
  "volumes",
  "metering",
  "subcooler",
  "coilAir",
  "returnAir",
  "outside",
] as const;
export type Nuisance = (typeof nuisanceNames)[number];

/** Amounts by which lumps are moved together, in their own units. */
export type Move = Readonly<Partial<Record<Nuisance, number>>>;

/**
 * What is known of a vehicle's own lumps: their mean, and independent directions, each one standard deviation long.
 * From the priors each direction is one lump; after a baseline they are mixed.
 */
export interface Knowledge {
  readonly mean: Move;
  readonly directions: readonly Move[];
}

/**
 * Priors: Pa; ln of factors; the share of the off time that lifts the head; K. Volumes after they were sized to the
 * label charge. Return air: share of the pull-down when it was not read, K when it was.
 *
 * Source: docs/models/faults.md (choices for a vehicle of a known kind; common practice, no source)
 */
const priors: Readonly<Record<Nuisance, number>> = {
  setPressure: 1.7 * PSI,
  idleAir: 0.35,
  roadAir: 0.3,
  condenser: 0.2,
  evaporator: 0.25,
  compressor: 0.12,
  cyclingHead: 0.2,
  vent: 0.7,
  volumes: 0.07,
  metering: 0.07,
  subcooler: 0.05,
  coilAir: 0.1,
  returnAir: 0.12,
  outside: 0.5,
};
const readReturnAir = 0.7;

/** Those that belong to the day, not to the vehicle: each run has its own, and no baseline narrows them. */
const dayNames = ["returnAir", "outside"] as const;
const ofTheDay = (name: Nuisance): name is DayNuisance => dayNames.some((one) => one === name);
type DayNuisance = (typeof dayNames)[number];

export interface Spread {
  readonly name: Nuisance;
  /** Standard deviation before any reading. */
  readonly sd: number;
}

/** Lumps that a vehicle of this kind has, those that matter on the road only too. */
export const vehicleSpread = ({ vehicle }: Kind): readonly Spread[] =>
  nuisanceNames
    .filter((name) => !ofTheDay(name) && has(name, vehicle))
    .map((name) => ({ name, sd: priors[name] }));

/** What is not known of the day of a run. */
export const daySpread = (run: VehicleCase): readonly Spread[] =>
  dayNames
    .filter((name) => matters(name, run))
    .map((name) => ({ name, sd: dayPrior(name, run.conditions) }));

/** What is known of a vehicle of a known kind without a baseline. */
export const priorKnowledge = (kind: Kind): Knowledge => ({
  mean: {},
  directions: vehicleSpread(kind).map(({ name, sd }) => ({ [name]: sd })),
});

const dayPrior = (name: DayNuisance, { returnAir }: Conditions): number =>
  name === "returnAir" && returnAir.kind === "measured" ? readReturnAir : priors[name];

/** Whether a move changes anything in a run. */
export const touches = (move: Move, run: VehicleCase): boolean =>
  nuisanceNames.some((name) => (move[name] ?? 0) !== 0 && matters(name, run));

function has(name: Nuisance, { control, expansion }: VehicleCase["vehicle"]): boolean {
  if (name === "cyclingHead") return control !== "displacement";
  return name === "subcooler" ? expansion === "valve" : true;
}

function matters(name: Nuisance, { conditions, vehicle }: VehicleCase): boolean {
  if (name === "roadAir") return conditions.speed > 0.5;
  return name === "returnAir" ? conditions.recirculation > 0.05 : has(name, vehicle);
}

const volumes: readonly ParameterName[] = [
  "condenserVolume",
  "evaporatorVolume",
  "liquidLineVolume",
  "dischargeLineVolume",
  "suctionLineVolume",
  "bufferVolume",
];

/** A system with its lumps moved by a multiple of a move. */
export function moved({ request: start, ventOffset }: Faulty, move: Move, times = 1): Faulty {
  let request = start;
  for (const name of nuisanceNames) {
    const by = times * (move[name] ?? 0);
    if (by === 0 || name === "vent") continue;
    request = ofTheDay(name)
      ? { ...request, conditions: weather(request.conditions, name, by) }
      : withHardware(request, name, by);
  }
  return { request, ventOffset: ventOffset + times * (move.vent ?? 0) };
}

function weather(conditions: Conditions, name: DayNuisance, by: number): Conditions {
  if (name === "outside") return { ...conditions, ambient: conditions.ambient + by };
  const { returnAir } = conditions;
  if (returnAir.kind === "measured") {
    return { ...conditions, returnAir: { ...returnAir, T: returnAir.T + by } };
  }
  const share = Math.min(0.98, Math.max(0, returnAir.share + by));
  return { ...conditions, returnAir: { kind: "pull-down", share } };
}

type Hardware = Exclude<Nuisance, DayNuisance | "vent">;

function withHardware(request: VehicleCase, name: Hardware, by: number): VehicleCase {
  const { vehicle } = request;
  const values = { ...vehicle.values };
  const times = (factor: number, ...names: readonly ParameterName[]): void => {
    for (const each of names) values[each] *= factor;
  };
  const k = Math.exp(by);
  switch (name) {
    case "setPressure":
      for (const each of ["switchOpens", "switchCloses", "suctionSetting"] as const) {
        values[each] += by;
      }
      // Near a coil's working point 1 psi is 0.6 K of R134a.
      values.finTemperature += (0.6 * by) / PSI;
      break;
    case "idleAir":
      times(k, "fanFlow");
      times(1 / k, "preheat", "recirculationShare");
      break;
    case "roadAir":
      times(k, "ramFactor");
      break;
    case "condenser":
      times(k, "condenserAirUA", "condenserTwoPhaseUA");
      break;
    case "evaporator":
      times(k, "evaporatorAirUA", "evaporatorTwoPhaseUA");
      break;
    case "compressor":
      times(k, "displacement");
      break;
    case "cyclingHead":
      values.cyclingHead = Math.max(0, values.cyclingHead + by);
      break;
    case "volumes":
      times(k, ...volumes);
      break;
    case "metering":
      times(k, "orificeArea");
      // A spring is set to some 20 % of its force where an orifice is made to 7 % of its area.
      times(Math.exp(3 * by), "valveSpring");
      break;
    case "subcooler":
      values.subcoolArea = Math.min(0.5, Math.max(0, values.subcoolArea + by));
      break;
    case "coilAir":
      times(k, "airFlow");
      break;
  }
  return { ...request, vehicle: { ...vehicle, values } };
}
