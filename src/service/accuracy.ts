/**
 * How exact an instrument is, as makers and standards state it. All numbers are in one linear unit of the
 * instrument's own scale: its zero matters where a percentage is of the reading (gauge Pa, °C, Pa absolute).
 */
export type Accuracy =
  | {
      readonly kind: "percent-of-span";
      readonly percent: number;
      readonly from: number;
      readonly to: number;
    }
  | {
      /** First and last quarter of the scale against the middle half, as in grade B ("3-2-3"). */
      readonly kind: "percent-of-span-by-quarter";
      readonly outer: number;
      readonly middle: number;
      readonly from: number;
      readonly to: number;
    }
  | { readonly kind: "limit"; readonly limit: number }
  | { readonly kind: "percent-of-reading"; readonly percent: number }
  /** The larger of the two, as for thermocouples. */
  | { readonly kind: "limit-or-percent"; readonly limit: number; readonly percent: number };

/** One contribution to an uncertainty, in the unit of the result. */
export interface Contribution {
  readonly name: string;
  /** Standard uncertainty. */
  readonly u: number;
}

/** Coverage factor of a 95 % band: k = 2, for more than about 30 degrees of freedom (JCGM 100:2008, G.6.6). */
export const COVERAGE = 2;

function span(from: number, to: number): number {
  if (!(to > from)) throw new RangeError(`a scale must rise: from ${from} to ${to}`);
  return to - from;
}

/** The class changes at a quarter of the scale; on the line itself the larger of the two holds. */
function quarterPercent(
  reading: number,
  at: Accuracy & { kind: "percent-of-span-by-quarter" },
): number {
  const place = (reading - at.from) / span(at.from, at.to);
  if (place > 0.25 && place < 0.75) return at.middle;
  return place === 0.25 || place === 0.75 ? Math.max(at.outer, at.middle) : at.outer;
}

/**
 * Largest error that an instrument in its class may have at a reading.
 *
 * @param accuracy Class of the instrument.
 * @param reading  On the instrument's own scale, in the unit of the class.
 * @returns Half-width of the interval, in the same unit.
 * @throws RangeError if a scale does not rise or a number is not finite: the caller's bug.
 * Source: EN 837-1 and ASME B40.100 state classes in percent of span (from memory of the standards).
 */
export function limitOfError(accuracy: Accuracy, reading: number): number {
  if (!Number.isFinite(reading)) throw new RangeError(`reading is ${reading}`);
  switch (accuracy.kind) {
    case "percent-of-span":
      return (accuracy.percent / 100) * span(accuracy.from, accuracy.to);
    case "percent-of-span-by-quarter":
      return (quarterPercent(reading, accuracy) / 100) * span(accuracy.from, accuracy.to);
    case "limit":
      return accuracy.limit;
    case "percent-of-reading":
      return (accuracy.percent / 100) * Math.abs(reading);
    case "limit-or-percent":
      return Math.max(accuracy.limit, (accuracy.percent / 100) * Math.abs(reading));
  }
}

/** Standard uncertainty of a value known only to lie within ± a: rectangular, a/√3 (JCGM 100:2008, 4.3.7). */
export const rectangular = (a: number): number => a / Math.sqrt(3);

/** Standard uncertainty of a reading in steps of r: r/√12 (JCGM 100:2008, F.2.2.1). */
export const ofResolution = (r: number): number => r / Math.sqrt(12);

/** Root of the sum of squares of independent contributions (JCGM 100:2008, 5.1.2). */
export const combined = (contributions: readonly Contribution[]): number =>
  Math.sqrt(contributions.reduce((sum, { u }) => sum + u * u, 0));

/** Standard uncertainty of one reading, with what it is made of. */
export interface InstrumentUncertainty {
  readonly u: number;
  /** Largest error of the class at this reading. */
  readonly limit: number;
  readonly contributions: readonly Contribution[];
}

/**
 * Standard uncertainty of a reading from the class of its instrument and the step in which it was read.
 *
 * @param accuracy   Class of the instrument.
 * @param reading    On the instrument's own scale.
 * @param resolution Smallest step that was read; absent means that the class covers it.
 * @throws RangeError as `limitOfError`.
 */
export function instrumentUncertainty(
  accuracy: Accuracy,
  reading: number,
  resolution = 0,
): InstrumentUncertainty {
  const limit = limitOfError(accuracy, reading);
  const contributions: Contribution[] = [
    { name: "class of the instrument", u: rectangular(limit) },
  ];
  if (resolution > 0) contributions.push({ name: "resolution", u: ofResolution(resolution) });
  return { u: combined(contributions), limit, contributions };
}
