import { comparedQuantities, type ComparedQuantity, isDriving } from "./comparable.ts";
import { contrastOf, type Evaluated, intervalOf } from "./contrast.ts";
import { contrastWeights, sidesOf } from "./effects.ts";
import type { DrawnVehicle, StandardReading } from "./ensemble.ts";
import { errorSizes, likeness, type Place } from "./errors.ts";
import { fairVerdict } from "./verdict.ts";
import type { EqualRow, Estimate, StandardRow } from "./view.ts";

/**
 * How an unknown fluid's effect may change over conditions far from those in which it was seen: standard deviations,
 * parked and on the road. The head's grows with the pressure. Chosen on hidden trials of four charges so that
 * 95 % intervals hold their truths; no measurement.
 */
const change = {
  vent: { parked: 0.95, driving: 0.65 },
  low: { parked: 15e3, driving: 15e3 },
  /** Share of the label refrigerant's absolute pressure there. */
  head: 0.04,
} as const;

/** Of the low side on the road where the control holds it in both places; the same trials. */
const HELD = 1e3;

/** Effects carried to standard conditions, from runs parked or on the road as the condition is. */
export function standardRows(evaluated: Evaluated, rows: readonly EqualRow[]): StandardRow[] {
  const steady = rows.filter(({ form }) => form === "steady");
  return evaluated.standard.flatMap((condition, k) =>
    comparedQuantities.flatMap((quantity) => {
      const label = labelLevel(evaluated, k, quantity);
      if (!label) return [];
      return steady
        .filter((row) => row.quantity === quantity && onRoad(evaluated, row) === condition.driving)
        .filter(firstOfProduct)
        .flatMap((row) => carried(evaluated, row, k, label));
    }),
  );
}

const firstOfProduct = (row: EqualRow, i: number, all: readonly EqualRow[]): boolean =>
  all.findIndex(({ product }) => product === row.product) === i;

const onRoad = ({ input }: Evaluated, { kind }: EqualRow): boolean =>
  input.runs.some((run) => run.kind === kind && isDriving(run));

/** Mean over the drawn vehicles that were run in the standard conditions; undefined where there is none. */
function meanOver(
  { ensemble, weights }: Evaluated,
  of: (standard: readonly StandardReading[], vehicle: DrawnVehicle) => number,
): number | undefined {
  let [sum, whole] = [0, 0];
  ensemble.drawn.forEach((vehicle, k) => {
    if (!vehicle.standard) return;
    const weight = weights[k] ?? 0;
    sum += weight * of(vehicle.standard, vehicle);
    whole += weight;
  });
  return whole > 0 ? sum / whole : undefined;
}

/** What the label refrigerant should read in a standard condition. */
function labelLevel(
  evaluated: Evaluated,
  k: number,
  quantity: ComparedQuantity,
): Estimate | undefined {
  const mean = (of: (level: number) => number) =>
    meanOver(evaluated, (standard) => of(standard[k]?.levels[quantity] ?? 0));
  const value = mean((level) => level);
  if (value === undefined) return undefined;
  const spread = mean((level) => (level - value) ** 2) ?? 0;
  return { value, u: Math.sqrt(spread + errorSizes[quantity].discrepancy ** 2) };
}

function carried(evaluated: Evaluated, row: EqualRow, k: number, label: Estimate): StandardRow[] {
  const condition = evaluated.standard[k];
  const there = evaluated.standardPlaces[k];
  if (!condition || !there) return [];
  const sides = sidesOf(evaluated, row.kind, row);
  const { product, quantity, margin } = row;
  const { ambient, humidity, driving } = condition;
  const size = sizeOf(evaluated, quantity, { product: sides.product, k }, label);
  // Twice the variance times what the two places do not share.
  const extra = 2 * size ** 2 * (1 - meanLikeness(evaluated, sides.product, there));
  const contrast = contrastOf(evaluated, contrastWeights(sides), extra);
  const interval = intervalOf(contrast);
  return [
    {
      ...{ product, quantity, ambient, humidity, driving, label },
      effect: contrast.estimate,
      interval,
      verdict: fairVerdict(quantity, interval, margin),
    },
  ];
}

/** Places of a product's readings, and a standard condition far from them. */
interface Carriage {
  readonly product: readonly number[];
  readonly k: number;
}

/** Standard deviation of a change of effect between unlike places. */
function sizeOf(
  evaluated: Evaluated,
  quantity: ComparedQuantity,
  carriage: Carriage,
  label: Estimate,
): number {
  if (quantity === "high") return change.head * label.value;
  const { parked, driving } = change[quantity];
  if (evaluated.standard[carriage.k]?.driving !== true) return parked;
  return quantity === "low" ? Math.hypot(HELD, driving * freeShare(evaluated, carriage)) : driving;
}

/** Root of the share of vehicles in which no control holds the low side in one of the places. */
function freeShare(evaluated: Evaluated, { product, k }: Carriage): number {
  const share = meanOver(evaluated, (standard, { sizes }) => {
    const isFree = standard[k]?.isFree === true || product.some((place) => (sizes[place] ?? 0) > 0);
    return isFree ? 1 : 0;
  });
  return Math.sqrt(share ?? 1);
}

function meanLikeness(
  { observed, places }: Evaluated,
  product: readonly number[],
  there: Place,
): number {
  const all = product.flatMap((place) => places[observed[place]?.run ?? -1]?.place ?? []);
  return all.reduce((sum, place) => sum + likeness(place, there), 0) / Math.max(1, all.length);
}
