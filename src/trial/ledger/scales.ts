import { type Quantity, toSI } from "../../units/index.ts";
import { instrumentUncertainty } from "../instruments.ts";
import type { InstrumentView } from "../view.ts";
import { type Form, input } from "./form.ts";

/**
 * What a weighing is worth. Readings of one scale are treated as independent: for a difference the
 * scale's common error cancels, so this overstates the uncertainty (docs/models/mass-ledger.md).
 */
export interface Weighed {
  readonly mass: Form;
  /** No scale was named and the list does not settle which it was. */
  readonly assumed: boolean;
}

/** Limit of a shop scale nobody named, kg: 5–10 g is common practice, no source; the wider is taken. */
export const assumedScaleLimit = 0.01;

/** A named scale; else the only one listed; else none. */
function scaleOf(
  instruments: readonly InstrumentView[],
  named: string | undefined,
): InstrumentView | undefined {
  const scales = instruments.filter(({ measures }) => measures === "mass");
  if (named !== undefined) return scales.find(({ id }) => id === named);
  return scales.length === 1 ? scales[0] : undefined;
}

/** Standard uncertainty of one reading of a scale, kg. */
export function scaleUncertainty(
  instruments: readonly InstrumentView[],
  named: string | undefined,
  mass: number,
): { readonly u: number; readonly assumed: boolean } {
  const scale = scaleOf(instruments, named);
  // A scale reads no pressure, so the atmosphere does not matter here.
  return scale
    ? { u: instrumentUncertainty(scale, mass, 0), assumed: false }
    : { u: assumedScaleLimit / Math.sqrt(3), assumed: true };
}

/** after − before of two readings of one scale. @param name  Unique name of this weighing. */
export function weighedDifference(
  name: string,
  weighing: {
    readonly before: Quantity;
    readonly after: Quantity;
    readonly instrument?: string | undefined;
  },
  instruments: readonly InstrumentView[],
): Weighed {
  const [before, after] = [toSI(weighing.before), toSI(weighing.after)];
  const a = scaleUncertainty(instruments, weighing.instrument, before);
  const b = scaleUncertainty(instruments, weighing.instrument, after);
  return { mass: input(name, after - before, Math.hypot(a.u, b.u)), assumed: a.assumed };
}

/** An estimate with its limit of error: rectangular. */
export const estimated = (
  name: string,
  { mass, limit }: { readonly mass: Quantity; readonly limit: Quantity },
): Form => input(name, toSI(mass), toSI(limit) / Math.sqrt(3));
