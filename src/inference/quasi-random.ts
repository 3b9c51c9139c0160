/**
 * Points that fill the unit cube evenly: the additive recurrence u_k = frac(shift + k·α), where αⱼ = φ^−(j+1) and φ is
 * the positive root of φ^(d+1) = φ + 1.
 *
 * Source: the golden-ratio recurrence in more dimensions, Roberts (2018), "The unreasonable effectiveness of
 * quasirandom sequences" (from memory).
 */
export function quasiRandomSteps(dimensions: number): Float64Array {
  let phi = 1.5;
  for (let k = 0; k < 60; k++) phi = (1 + phi) ** (1 / (dimensions + 1));
  return Float64Array.from({ length: dimensions }, (_, j) => phi ** -(j + 1));
}

/** Point k of the sequence, into `into`; `shift` in [0, 1) makes another sequence of the same evenness. */
export function quasiRandomPoint(
  steps: Float64Array,
  k: number,
  shift: number,
  into: Float64Array,
): void {
  for (let j = 0; j < steps.length; j++) {
    const x = shift * (j + 1) + (k + 1) * steps[j];
    into[j] = x - Math.floor(x);
  }
}
