import { comparedQuantities, type ComparedQuantity } from "./comparable.ts";
import { contrastOf, type Evaluated, intervalOf } from "./contrast.ts";
import { contrastWeights, sidesOf } from "./effects.ts";
import { errorSizes, likeness, type Place } from "./errors.ts";
import type { StandardCondition } from "./standard.ts";
import { fairVerdict } from "./verdict.ts";
import type { EqualRow, Estimate, StandardRow } from "./view.ts";

/**
 * How an unknown fluid's effect may change over conditions far from those in which it was seen: standard
 * deviations, and where its readings look starved. Judged from trials of the model; no measurement.
 */
const change: Readonly<
  Record<ComparedQuantity, { readonly plain: number; readonly starved: number }>
> = {
  vent: { plain: 1, starved: 1.8 },
  low: { plain: 20e3, starved: 30e3 },
  high: { plain: 60e3, starved: 90e3 },
};

/** A parked vehicle's speed may read a little more than nothing, m/s. */
const DRIVING = 3;

/** Vent warmer and head lower by more than their intervals: the signs of too little refrigerant. */
function looksStarved(rows: readonly EqualRow[], product: string, kind: string): boolean {
  const of = (quantity: ComparedQuantity) =>
    rows.find((row) => row.product === product && row.kind === kind && row.quantity === quantity);
  const [vent, high] = [of("vent"), of("high")];
  return vent !== undefined && high !== undefined && vent.interval.from > 0 && high.interval.to < 0;
}

/** Effects carried to standard conditions, from runs parked or on the road as the condition is. */
export function standardRows(evaluated: Evaluated, rows: readonly EqualRow[]): StandardRow[] {
  const steady = rows.filter(({ form }) => form === "steady");
  return evaluated.standard.flatMap((condition, k) =>
    comparedQuantities.flatMap((quantity, q) => {
      const label = labelLevel(evaluated, k * comparedQuantities.length + q, quantity);
      return steady
        .filter(
          (row) => row.quantity === quantity && isDriving(evaluated, row) === condition.driving,
        )
        .filter(firstOfProduct)
        .map((row) =>
          carried(evaluated, row, condition, label, looksStarved(rows, row.product, row.kind)),
        );
    }),
  );
}

const firstOfProduct = (row: EqualRow, i: number, all: readonly EqualRow[]): boolean =>
  all.findIndex(({ product }) => product === row.product) === i;

const isDriving = ({ input }: Evaluated, { kind }: EqualRow): boolean =>
  input.runs.some((run) => run.kind === kind && run.conditions.speed > DRIVING);

/** What the label refrigerant should read in a standard condition. */
function labelLevel(
  { ensemble, weights }: Evaluated,
  at: number,
  quantity: ComparedQuantity,
): Estimate {
  const levels = ensemble.drawn.map(({ standard }) => standard[at] ?? 0);
  const mean = (of: readonly number[]): number =>
    of.reduce((sum, each, k) => sum + (weights[k] ?? 0) * each, 0);
  const value = mean(levels);
  const spread = mean(levels.map((level) => (level - value) ** 2));
  return { value, u: Math.sqrt(spread + errorSizes[quantity].discrepancy ** 2) };
}

function carried(
  evaluated: Evaluated,
  row: EqualRow,
  condition: StandardCondition,
  label: Estimate,
  starved: boolean,
): StandardRow {
  const sides = sidesOf(evaluated, row.kind, row);
  const there = standardPlace(evaluated, sides.product, condition);
  const size = change[row.quantity][starved ? "starved" : "plain"];
  // Twice the variance times what the two places do not share.
  const extra =
    sides.product.length === 0
      ? 0
      : 2 * size ** 2 * (1 - meanLikeness(evaluated, sides.product, there));
  const contrast = contrastOf(evaluated, contrastWeights(sides), extra);
  const interval = intervalOf(contrast);
  const { product, quantity, margin } = row;
  const { ambient, humidity, driving } = condition;
  return {
    product,
    quantity,
    ambient,
    humidity,
    driving,
    label,
    effect: contrast.estimate,
    interval,
    verdict: fairVerdict(quantity, interval, margin),
  };
}

/** The standard condition with return air as far from ambient as it was in the product's runs. */
function standardPlace(
  { observed, places }: Evaluated,
  product: readonly number[],
  { conditions: { ambient, speed, engineSpeed } }: StandardCondition,
): Place {
  const mine = product.flatMap((place) => places[observed[place]?.run ?? -1]?.place ?? []);
  const mean = (of: (place: Place) => number): number =>
    mine.reduce((sum, place) => sum + of(place), 0) / Math.max(1, mine.length);
  return {
    ambient,
    speed,
    engineSpeed,
    returnT: ambient + mean((place) => place.returnT - place.ambient),
    returnHumidity: mean((place) => place.returnHumidity),
  };
}

function meanLikeness(
  { observed, places }: Evaluated,
  product: readonly number[],
  there: Place,
): number {
  const all = product.flatMap((place) => places[observed[place]?.run ?? -1]?.place ?? []);
  return all.reduce((sum, place) => sum + likeness(place, there), 0) / Math.max(1, all.length);
}
