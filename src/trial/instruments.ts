import { type Quantity, toSI, unitSize } from "../units/index.ts";
import type { Accuracy } from "./events.ts";
import type { InstrumentView } from "./view.ts";

/**
 * From an instrument's class to a standard uncertainty at one reading, SI.
 *
 * Limits of error are rectangular, a/√3; a display's step is rectangular, r/√12; both in quadrature.
 * Source: JCGM 100 (GUM) 4.3.7, F.2.2.1.
 */
export function instrumentUncertainty(
  instrument: Pick<InstrumentView, "accuracy" | "resolution" | "measures">,
  value: number,
  atmosphere: number,
): number {
  const limit = limitOfError(instrument, value, atmosphere);
  const step = instrument.resolution ? sizeOf(instrument.resolution) : 0;
  return Math.hypot(limit / Math.sqrt(3), step / Math.sqrt(12));
}

const sizeOf = (quantity: Quantity): number => Math.abs(quantity.value) * unitSize(quantity.unit);

function limitOfError(
  { accuracy, measures }: Pick<InstrumentView, "accuracy" | "measures">,
  value: number,
  atmosphere: number,
): number {
  switch (accuracy.kind) {
    case "limit":
      return sizeOf(accuracy.limit);
    case "percent-of-span":
      return (accuracy.percent / 100) * span(accuracy, atmosphere).length;
    case "percent-of-span-by-quarter": {
      const { from, length } = span(accuracy, atmosphere);
      const position = length === 0 ? 0 : (value - from) / length;
      const percent = position >= 0.25 && position <= 0.75 ? accuracy.middle : accuracy.outer;
      return (percent / 100) * length;
    }
    case "percent-of-reading":
      return (accuracy.percent / 100) * shown(measures, value, atmosphere);
    case "limit-or-percent": {
      const part = (accuracy.percent / 100) * shown(measures, value, atmosphere);
      return Math.max(sizeOf(accuracy.limit), part);
    }
  }
}

function span(
  accuracy: Extract<Accuracy, { from: Quantity }>,
  atmosphere: number,
): { from: number; length: number } {
  const [a, b] = [toSI(accuracy.from, atmosphere), toSI(accuracy.to, atmosphere)];
  return { from: Math.min(a, b), length: Math.abs(b - a) };
}

/** The size a percentage counts from: the number on the face, not the absolute value behind it. */
function shown(measures: InstrumentView["measures"], value: number, atmosphere: number): number {
  if (measures === "temperature") return Math.abs(value - 273.15);
  if (measures === "pressure") return Math.abs(value - atmosphere);
  return Math.abs(value);
}
