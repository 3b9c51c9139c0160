import { weightedVariance } from "../../inference/index.ts";
import { comparedQuantities, type ComparedForm, productOf } from "./comparable.ts";
import { type Contrast, contrastOf, type Evaluated, intervalOf, type Weights } from "./contrast.ts";
import { DETECTABLE, fairVerdict } from "./verdict.ts";
import type { EqualRow } from "./view.ts";

export const forms: readonly ComparedForm[] = ["steady", "lowest", "highest"];

/** What is put against each other: places of observations. */
export interface Sides {
  readonly before: readonly number[];
  readonly after: readonly number[];
  readonly product: readonly number[];
}

/** Places of one quantity and form in one kind of run. */
export function sidesOf(
  { input, observed }: Pick<Evaluated, "input" | "observed">,
  kind: string,
  what: { readonly quantity: string; readonly form: string; readonly product?: string },
): Sides {
  const sides = { before: [] as number[], after: [] as number[], product: [] as number[] };
  observed.forEach(({ run, quantity, form }, place) => {
    const of = input.runs[run];
    if (of?.kind !== kind || quantity !== what.quantity || form !== what.form) return;
    if (of.charged === "before" || of.charged === "after") sides[of.charged].push(place);
    else if (of.charged.product === what.product) sides.product.push(place);
  });
  return sides;
}

/** Product minus baseline: half of the baseline's weight before and half after, as far as both exist. */
export function contrastWeights({ before, after, product }: Sides): Weights {
  const weights = new Map<number, number>();
  for (const place of product) weights.set(place, 1 / product.length);
  const stages = [before, after].filter(({ length }) => length > 0);
  for (const stage of stages) {
    for (const place of stage) weights.set(place, -1 / (stage.length * stages.length));
  }
  return weights;
}

/** A row and the distribution that it tells of. */
export interface Effect {
  readonly row: EqualRow;
  readonly contrast: Contrast;
}

/** Every product, kind of run, quantity and form that has readings on both sides. */
export function effectsOf(evaluated: Evaluated): Effect[] {
  const { runs } = evaluated.input;
  const products = [...new Set(runs.flatMap((run) => productOf(run) ?? []))];
  const kinds = [...new Set(runs.map(({ kind }) => kind))];
  return products.flatMap((product) =>
    kinds.flatMap((kind) =>
      comparedQuantities.flatMap((quantity) =>
        forms.flatMap((form) => rowOf(evaluated, { product, kind, quantity, form })),
      ),
    ),
  );
}

function rowOf(
  evaluated: Evaluated,
  what: Pick<EqualRow, "product" | "kind" | "quantity" | "form">,
): Effect[] {
  const sides = sidesOf(evaluated, what.kind, what);
  const baselineRuns = sides.before.length + sides.after.length;
  if (sides.product.length === 0 || baselineRuns === 0) return [];
  const weights = contrastWeights(sides);
  const contrast = contrastOf(evaluated, weights);
  const interval = intervalOf(contrast);
  const margin = evaluated.input.margins[what.quantity];
  const row = {
    ...what,
    asMeasured: { value: contrast.raw, u: readingError(evaluated, weights) },
    equalConditions: contrast.estimate,
    interval,
    margin,
    verdict: fairVerdict(what.quantity, interval, margin),
    smallestDetectable: DETECTABLE * contrast.estimate.u,
    ...shares(evaluated, weights, what.quantity, contrast),
    baselineRuns,
    productRuns: sides.product.length,
  };
  return [{ row, contrast }];
}

/** Of the raw difference: scatter and instruments only, as far as the instruments do not cancel. */
function readingError({ observed }: Evaluated, weights: Weights): number {
  const byInstrument = new Map<string, number>();
  let variance = 0;
  for (const [place, weight] of weights) {
    const each = observed[place];
    if (!each) continue;
    variance += (weight * each.uRepeatability) ** 2;
    const before = byInstrument.get(each.instrument) ?? 0;
    byInstrument.set(each.instrument, before + weight * each.uInstrument);
  }
  for (const sum of byInstrument.values()) variance += sum * sum;
  return Math.sqrt(variance);
}

/** How much of the uncertainty comes from what the model leaves out, and from drift. */
function shares(
  evaluated: Evaluated,
  weights: Weights,
  quantity: EqualRow["quantity"],
  { estimate }: Contrast,
): Pick<EqualRow, "discrepancy" | "drift"> {
  const { observed, places, drift, groups, ensemble, weights: vehicles } = evaluated;
  // One quantity's readings are one group of errors; of these only what the model leaves out.
  const bare = groups
    .filter(({ at }) => at.some((place) => weights.has(place)))
    .map((group) => ({ ...group, fixed: new Float64Array(group.fixed.length) }));
  const leftOut = ensemble.drawn.reduce(
    (sum, { sizes }, k) => sum + (vehicles[k] ?? 0) * weightedVariance(bare, weights, sizes),
    0,
  );
  const time = (place: number): number => places[observed[place]?.run ?? -1]?.time ?? 0;
  let walked = 0;
  for (const [a, wa] of weights) {
    for (const [b, wb] of weights) walked += wa * wb * Math.min(time(a), time(b));
  }
  const limit = estimate.u;
  return {
    discrepancy: Math.min(limit, Math.sqrt(Math.max(0, leftOut))),
    drift: Math.min(limit, drift[quantity] * Math.sqrt(Math.max(0, walked))),
  };
}
