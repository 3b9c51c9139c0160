import type { PureFluid } from "./pure-fluid.ts";
import { A01, A02, A03, evaluateInDelta, setTau } from "./residual-kernel.ts";
import { densitiesAt, pressureAt, xAt } from "./saturation-model.ts";
import type { StateWork } from "./state-work.ts";

/** Halley's steps shrink with the third power: after one this small nothing is left to gain. */
const smallStep = 1e-8;
/** Bisection alone would need some fifty. */
const maxIterations = 120;
/** Room for the error of the expansions at the ends of a phase, largest at the critical point. */
const slack = 3e-4;

/**
 * Density of the stable phase at a temperature and pressure.
 *
 * Below the critical temperature the saturation pressure decides between liquid and vapour; at
 * exactly that pressure the liquid is taken. Halley's method inside a bracket.
 *
 * @param T, p  K, Pa, > 0, within the limits of the fluid.
 * @param work  work.delta is the reduced density found, work.iterations the evaluations; the factors
 *              of this temperature are left in work.residual.
 * @param side  Below the critical temperature, the phase wanted where rounding of p decides wrongly.
 * @returns     Whether the search converged.
 *
 * Cost: about one full evaluation; allocates nothing but two numbers' worth of densities.
 */
export function solveDensity(
  fluid: PureFluid,
  T: number,
  p: number,
  work: StateWork,
  side: "stable" | "liquid" | "gas" = "stable",
): boolean {
  const { rhor, R, saturation } = fluid;
  setTau(fluid.residual, fluid.Tr / T, work.residual);
  const target = p / (rhor * R * T);
  if (T >= saturation.critical.T) {
    work.delta = cubicDensity(fluid, T, p) / rhor;
    return search(fluid, target, 0, Infinity, work);
  }
  const x = xAt(saturation, T);
  const pSat = pressureAt(saturation, x);
  const { rhoL, rhoV } = densitiesAt(saturation, x);
  if (side === "liquid" || (side === "stable" && p >= pSat)) {
    work.delta = rhoL / rhor;
    return search(fluid, target, work.delta * (1 - slack), Infinity, work);
  }
  // The compressibility factor falls nearly straight from 1 at p = 0 to its saturated value.
  const Z = 1 + (pSat / (rhoV * R * T) - 1) * Math.min(1, p / pSat);
  work.delta = target / Z;
  return search(fluid, target, 0, (rhoV / rhor) * (1 + slack), work);
}

/**
 * Finds δ with δ(1 + A01) = target between bounds, from work.delta, at the τ in work.residual.
 *
 * @param low, high  The pressure is below the target at `low` and above it at `high`.
 */
function search(
  fluid: PureFluid,
  target: number,
  low: number,
  high: number,
  work: StateWork,
): boolean {
  const { A } = work.residual;
  let delta = work.delta;
  if (!(delta > low && delta < high)) delta = high < Infinity ? 0.5 * (low + high) : low + slack;
  for (let iteration = 1; iteration <= maxIterations; iteration++) {
    evaluateInDelta(fluid.residual, delta, work.residual);
    const a1 = A[A01];
    const a2 = A[A02];
    const value = delta * (1 + a1) - target;
    const slope = 1 + 2 * a1 + a2;
    if (value > 0) high = delta;
    else low = delta;
    let next = 0;
    if (slope > 0) {
      const newton = -value / slope;
      const bend = (2 * a1 + 4 * a2 + A[A03]) / delta;
      const halley = 1 + (0.5 * newton * bend) / slope;
      const step = newton / Math.max(0.5, halley);
      next = delta + step;
      if (Math.abs(step) <= smallStep * delta) {
        work.delta = next;
        work.iterations = iteration;
        return true;
      }
      if (next > 1.5 * delta) next = 1.5 * delta;
    }
    // A step to the wrong side of the bracket, or none: halve, or grow while there is no upper end.
    if (!(next > low && next < high)) next = high < Infinity ? 0.5 * (low + high) : 1.2 * delta;
    if (high < Infinity && high - low <= 4e-16 * high) {
      work.delta = delta;
      work.iterations = iteration;
      return true;
    }
    delta = next;
  }
  work.iterations = maxIterations;
  return false;
}

/**
 * Density from the Peng–Robinson equation, mol/m³; a starting value above the critical temperature.
 *
 * Source: Peng and Robinson, Ind. Eng. Chem. Fundam. 15 (1976) 59
 */
function cubicDensity({ info, R, critical }: PureFluid, T: number, p: number): number {
  const kappa = 0.37464 + info.acentric * (1.54226 - 0.26992 * info.acentric);
  const root = 1 + kappa * (1 - Math.sqrt(T / critical.T));
  const A = (0.45724 * root * root * p * critical.T * critical.T) / (critical.p * T * T);
  const B = (0.0778 * p * critical.T) / (critical.p * T);
  // Z³ + c2·Z² + c1·Z + c0 = 0, solved by Cardano's formula.
  const c2 = B - 1;
  const c1 = A - 3 * B * B - 2 * B;
  const c0 = -(A * B - B * B - B * B * B);
  const q = (c2 * c2) / 9 - c1 / 3;
  const r = (c2 * (2 * c2 * c2 - 9 * c1)) / 54 + c0 / 2;
  const discriminant = r * r - q * q * q;
  let Z: number;
  if (discriminant >= 0) {
    const u = -Math.sign(r) * Math.cbrt(Math.abs(r) + Math.sqrt(discriminant));
    Z = u + (u === 0 ? 0 : q / u) - c2 / 3;
  } else {
    const angle = Math.acos(Math.max(-1, Math.min(1, r / Math.sqrt(q * q * q))));
    const turn = p > critical.p ? 0 : 2 * Math.PI;
    Z = -2 * Math.sqrt(q) * Math.cos((angle + turn) / 3) - c2 / 3;
  }
  return p / (Math.max(Z, 1.01 * B) * R * T);
}
