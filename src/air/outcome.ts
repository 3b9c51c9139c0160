/** A question outside the range of the equations, with the range that has an answer. */
export interface OutOfRange {
  readonly kind: "out-of-range";
  readonly quantity: string;
  readonly value: number;
  readonly from: number;
  readonly to: number;
}

/** `undefined` when the value lies in the closed range; a NaN never does. */
export const outside = (
  quantity: string,
  value: number,
  from: number,
  to: number,
): OutOfRange | undefined =>
  value >= from && value <= to ? undefined : { kind: "out-of-range", quantity, value, from, to };
