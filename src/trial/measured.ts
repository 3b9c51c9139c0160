/** An SI value with its standard uncertainty. */
export interface Measured {
  readonly value: number;
  readonly u: number;
}
