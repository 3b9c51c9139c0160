import { findRoot } from "../numerics/index.ts";

/**
 * Chance that |T| stays below t for Student's t with a whole number of degrees of freedom.
 *
 * Source: Abramowitz & Stegun 26.7.3 and 26.7.4
 */
export function studentWithin(t: number, degrees: number): number {
  const theta = Math.atan(t / Math.sqrt(degrees));
  const cosine = Math.cos(theta);
  const odd = degrees % 2 === 1;
  let term = odd ? cosine : 1;
  let sum = degrees === 1 ? 0 : term;
  for (let k = odd ? 3 : 2; k <= degrees - 2; k += 2) {
    term *= ((k - 1) / k) * cosine ** 2;
    sum += term;
  }
  const series = Math.sin(theta) * sum;
  return odd ? (2 / Math.PI) * (theta + series) : series;
}

/**
 * Half-width of a central interval in standard errors.
 *
 * @param coverage  Between 0 and 1, both excluded.
 * @param degrees   A whole number from 1.
 * @throws          RangeError outside: the caller's bug.
 */
export function studentHalfWidth(coverage: number, degrees: number): number {
  if (!(coverage > 0 && coverage < 1) || !(Number.isInteger(degrees) && degrees >= 1)) {
    throw new RangeError(`coverage ${coverage} with ${degrees} degrees of freedom`);
  }
  // In the angle the search has an end: t = √ν tan θ.
  const root = findRoot(
    (theta) => studentWithin(Math.sqrt(degrees) * Math.tan(theta), degrees) - coverage,
    0,
    Math.PI / 2 - 1e-12,
  );
  if (root.kind === "failed") throw new RangeError(`no quantile: ${root.reason}`);
  return Math.sqrt(degrees) * Math.tan(root.x);
}
