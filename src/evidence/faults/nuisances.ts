import type { Conditions, ParameterName, VehicleCase } from "../../vehicle/index.ts";

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
 * What is known of a vehicle's lumps: their mean, and independent directions, each one standard deviation long.
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

/** Those that belong to the day, not to the vehicle: no baseline narrows them. */
export const ofTheDay: readonly Nuisance[] = ["returnAir", "outside"];

/** Standard deviations of the lumps that matter in some conditions, before any reading. */
export function priorSpread(
  request: VehicleCase,
): readonly { readonly name: Nuisance; readonly sd: number }[] {
  return nuisanceNames
    .filter((name) => matters(name, request))
    .map((name) => ({ name, sd: priorOf(name, request.conditions) }));
}

/** What is known of a vehicle of a known kind without a baseline. */
export const priorKnowledge = (request: VehicleCase): Knowledge => ({
  mean: {},
  directions: priorSpread(request).map(({ name, sd }) => ({ [name]: sd })),
});

const priorOf = (name: Nuisance, { returnAir }: Conditions): number =>
  name === "returnAir" && returnAir.kind === "measured" ? readReturnAir : priors[name];

function matters(name: Nuisance, { conditions, vehicle }: VehicleCase): boolean {
  const { speed, recirculation } = conditions;
  const { control, expansion } = vehicle;
  if (name === "roadAir") return speed > 0.5;
  if (name === "cyclingHead") return control !== "displacement";
  if (name === "subcooler") return expansion === "valve";
  if (name === "returnAir") return recirculation > 0.05;
  return true;
}

const volumes: readonly ParameterName[] = [
  "condenserVolume",
  "evaporatorVolume",
  "liquidLineVolume",
  "dischargeLineVolume",
  "suctionLineVolume",
  "bufferVolume",
];

/** A case with its lumps moved by a multiple of a move; what moves the vent's reading only is returned beside it. */
export function moved(
  start: VehicleCase,
  move: Move,
  times = 1,
): { readonly request: VehicleCase; readonly vent: number } {
  let request = start;
  for (const name of nuisanceNames) {
    const by = times * (move[name] ?? 0);
    if (by === 0 || name === "vent") continue;
    request =
      name === "returnAir" || name === "outside"
        ? { ...request, conditions: weather(request.conditions, name, by) }
        : withHardware(request, name, by);
  }
  return { request, vent: times * (move.vent ?? 0) };
}

function weather(conditions: Conditions, name: "returnAir" | "outside", by: number): Conditions {
  if (name === "outside") return { ...conditions, ambient: conditions.ambient + by };
  const { returnAir } = conditions;
  if (returnAir.kind === "measured") {
    return { ...conditions, returnAir: { ...returnAir, T: returnAir.T + by } };
  }
  const share = Math.min(0.98, Math.max(0, returnAir.share + by));
  return { ...conditions, returnAir: { kind: "pull-down", share } };
}

type Hardware = Exclude<Nuisance, "vent" | "returnAir" | "outside">;

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
