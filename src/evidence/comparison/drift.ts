import { comparedQuantities, type ComparedQuantity } from "./comparable.ts";
import { type Contrast, contrastOf, type Evaluated, intervalOf, type Weights } from "./contrast.ts";
import { forms, sidesOf } from "./effects.ts";
import { type DriftSizes, errorSizes } from "./errors.ts";
import type { DriftRow } from "./view.ts";

const meanMinusMean = (after: readonly number[], before: readonly number[]): Weights =>
  new Map([
    ...after.map((place) => [place, 1 / after.length] as const),
    ...before.map((place) => [place, -1 / before.length] as const),
  ]);

/** A contrast of the label refrigerant with itself: what the fit expects of its errors is the drift, and stays in. */
function shownDrift({
  estimate,
  expected,
  mixture,
}: Contrast): Pick<DriftRow, "drift" | "interval"> {
  const centres = Float64Array.from(mixture.centres, (centre) => centre + expected);
  return {
    drift: { value: estimate.value + expected, u: estimate.u },
    interval: intervalOf({ mixture: { ...mixture, centres } }),
  };
}

/** The label refrigerant after the products minus before, in equal conditions. */
export function driftRows(evaluated: Evaluated): DriftRow[] {
  const kinds = [...new Set(evaluated.input.runs.map(({ kind }) => kind))];
  return kinds.flatMap((kind) =>
    comparedQuantities.flatMap((quantity) =>
      forms.flatMap((form) => {
        const { before, after } = sidesOf(evaluated, kind, { quantity, form });
        if (before.length === 0 || after.length === 0) return [];
        const contrast = contrastOf(evaluated, meanMinusMean(after, before));
        return [{ kind, quantity, form, ...shownDrift(contrast) }];
      }),
    ),
  );
}

/**
 * Standard deviation allowed for drift: what is usual, or where a drift shows (its 95 % interval leaves 0 out) as much
 * as shows beyond the rest of its uncertainty.
 */
export function driftSizes(evaluated: Evaluated): DriftSizes {
  const shown = driftRows(evaluated).filter(({ interval: { from, to } }) => from > 0 || to < 0);
  const size = (quantity: ComparedQuantity): number => {
    // The uncertainty holds the usual drift already.
    const usual = errorSizes[quantity].drift ** 2;
    return Math.sqrt(
      shown
        .filter((row) => row.quantity === quantity)
        .reduce(
          (most, { drift: { value, u } }) => Math.max(most, value ** 2 - u ** 2 + usual),
          usual,
        ),
    );
  };
  return { vent: size("vent"), low: size("low"), high: size("high") };
}
