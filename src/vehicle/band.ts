import { applies, type ParameterName, parameterNames, plausibleRange } from "./parameters.ts";
import { createRunWork, type Running, runVehicle, type RunWork, type VehicleCase } from "./run.ts";

/** Quantities that carry a band. */
export const bandQuantities = [
  "low",
  "high",
  "highOn",
  "vent",
  "capacity",
  "power",
  "cop",
  "discharge",
  "superheat",
  "subcooling",
  "duty",
] as const;
export type BandQuantity = (typeof bandQuantities)[number];

export interface BandLimits {
  readonly from: number;
  readonly to: number;
}

/** A result with bands, and the parameters that move the vent and the head most. */
export interface Band {
  readonly limits: Readonly<Partial<Record<BandQuantity, BandLimits>>>;
  /** Parameters at whose ends the system did not run: their share is missing. */
  readonly missing: readonly ParameterName[];
}

/** Two standard deviations. */
const coverage = 2;
/**
 * Standard deviation of what the model leaves out: starved answers are less certain (judged from trials
 * of this model against variants of itself, no measurement). Pa, K, and relative.
 */
const modelError = { low: 14e3, high: 34e3, vent: 1.0, ventStarved: 1.8, relative: 0.05 } as const;

/** Volumes move together when they are scaled to the label charge: one at a time they count this share of their range. */
const volumes: readonly ParameterName[] = [
  "condenserVolume",
  "evaporatorVolume",
  "liquidLineVolume",
  "dischargeLineVolume",
  "suctionLineVolume",
  "bufferVolume",
];
const volumeShare = 0.6;
/** The label is known, not guessed: it only names the target. */
const skipped: readonly ParameterName[] = ["labelCharge"];

/**
 * Band of each quantity from the plausible ranges of the parameters.
 *
 * Every parameter is moved to both ends of its range, one at a time; the change at an end counts as
 * the limit of a rectangular distribution (its standard deviation is the change over √3). Rises and
 * falls are summed in quadrature apart, with the model's own error, and doubled. Parameters that the
 * user gave are as uncertain as the range of the data file around them unless named in `known`.
 *
 * @param known Parameters that are known: they stay.
 * Limits: no interaction between parameters; a kink between two regimes is met at the ends only.
 * Cost: two warm solves a parameter, some 10 ms.
 */
export function bandOf(
  request: VehicleCase,
  nominal: Running,
  known: readonly ParameterName[] = [],
  work: RunWork = createRunWork(),
): Band {
  const up = new Map<BandQuantity, number>();
  const down = new Map<BandQuantity, number>();
  const missing: ParameterName[] = [];
  for (const name of parameterNames) {
    if (skipped.includes(name) || known.includes(name) || !applies(request.vehicle, name)) continue;
    const { from, to } = plausibleRange(request.vehicle, name);
    const value = request.vehicle.values[name];
    const share = volumes.includes(name) ? volumeShare : 1;
    for (const end of [from, to]) {
      if (end === value) continue;
      const moved = withParameter(request, name, value + share * (end - value));
      const run = runVehicle(moved, work, nominal.start);
      if (run.kind === "running") collect(run, nominal, up, down);
      else if (!missing.includes(name)) missing.push(name);
    }
  }
  return { limits: limitsOf(nominal, up, down), missing };
}

function withParameter(request: VehicleCase, name: ParameterName, value: number): VehicleCase {
  const { vehicle } = request;
  return { ...request, vehicle: { ...vehicle, values: { ...vehicle.values, [name]: value } } };
}

function collect(
  run: Running,
  nominal: Running,
  up: Map<BandQuantity, number>,
  down: Map<BandQuantity, number>,
): void {
  for (const quantity of bandQuantities) {
    const here = nominal[quantity];
    if (here === undefined) continue;
    // Without cycling the head while engaged is the head.
    const change = (run[quantity] ?? run.high) - here;
    const side = change > 0 ? up : down;
    side.set(quantity, (side.get(quantity) ?? 0) + (change * change) / 3);
  }
}

function limitsOf(
  nominal: Running,
  up: ReadonlyMap<BandQuantity, number>,
  down: ReadonlyMap<BandQuantity, number>,
): Band["limits"] {
  const limits: Partial<Record<BandQuantity, BandLimits>> = {};
  for (const quantity of bandQuantities) {
    const value = nominal[quantity];
    if (value === undefined) continue;
    const own = ownError(quantity, nominal) ** 2;
    const reach = (variances: ReadonlyMap<BandQuantity, number>): number =>
      coverage * Math.sqrt((variances.get(quantity) ?? 0) + own);
    const floor = quantity === "vent" || quantity === "discharge" ? -Infinity : 0;
    const ceiling = quantity === "duty" ? 1 : Infinity;
    limits[quantity] = {
      from: Math.max(floor, value - reach(down)),
      to: Math.min(ceiling, value + reach(up)),
    };
  }
  return limits;
}

function ownError(quantity: BandQuantity, nominal: Running): number {
  switch (quantity) {
    case "low":
      return modelError.low;
    case "high":
    case "highOn":
      return modelError.high;
    case "vent":
      return nominal.regime === "balanced" ? modelError.vent : modelError.ventStarved;
    case "discharge":
    case "superheat":
    case "subcooling":
      return modelError.vent;
    case "capacity":
    case "power":
    case "cop":
    case "duty":
      return modelError.relative * nominal[quantity];
  }
}
