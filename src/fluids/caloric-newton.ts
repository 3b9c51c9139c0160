import { CV, DP_DRHO, DP_DT, evaluateProperties, H, P, S } from "./properties.ts";
import type { PureFluid } from "./pure-fluid.ts";
import type { StateWork } from "./state-work.ts";

/** A pressure, Pa, and the enthalpy, J/mol, or entropy, J/(mol K), wanted at it. */
export interface CaloricTarget {
  readonly p: number;
  readonly value: number;
  readonly quantity: "h" | "s";
}

/** Where one phase lies at a pressure. */
export interface PhaseBounds {
  readonly side: "liquid" | "gas" | "stable";
  readonly Tlow: number;
  readonly Thigh: number;
  readonly rhoLow: number;
  readonly rhoHigh: number;
}

/** Newton from a fair start needs three to six steps; the bracketed search is there for the rest. */
const maxIterations = 16;
/** After a step this small the next one would be its square. */
const smallStep = 1e-8;

/**
 * Newton's method in T and ρ on p and one caloric property.
 *
 * @param start  T and ρ to start from, inside the bounds.
 * @param work   On success work.T, work.delta and work.out hold the state.
 * @returns      Whether it converged inside the bounds.
 *
 * Cost: one full evaluation a step; allocates nothing.
 */
export function newtonCaloric(
  fluid: PureFluid,
  target: CaloricTarget,
  start: { readonly T: number; readonly rho: number },
  bounds: PhaseBounds,
  work: StateWork,
): boolean {
  const { out } = work;
  let { T, rho } = start;
  for (let iteration = 1; iteration <= maxIterations; iteration++) {
    evaluateProperties(fluid, T, rho, work);
    const pT = out[DP_DT];
    const pRho = out[DP_DRHO];
    if (!(pRho > 0)) return false;
    let slopeT = out[CV];
    let slopeRho = -(T * pT) / (rho * rho);
    let gap = target.value;
    // dh = cv·dT + p_T/ρ·dT + (p_ρ/ρ − T·p_T/ρ²)·dρ; T·ds = cv·dT − T·p_T/ρ²·dρ.
    if (target.quantity === "h") {
      gap -= out[H];
      slopeT += pT / rho;
      slopeRho += pRho / rho;
    } else gap = (gap - out[S]) * T;
    const gapP = target.p - out[P];
    const determinant = pT * slopeRho - pRho * slopeT;
    const stepT = (gapP * slopeRho - pRho * gap) / determinant;
    const stepRho = (pT * gap - slopeT * gapP) / determinant;
    const size = Math.max(Math.abs(stepT) / T, Math.abs(stepRho) / rho);
    if (!(size < 1e6)) return false;
    const nextT = Math.min(bounds.Thigh, Math.max(bounds.Tlow, T + clip(stepT, 0.25 * T)));
    let nextRho = rho + clip(stepRho, 0.5 * rho);
    if (nextRho < bounds.rhoLow) nextRho = 0.5 * (rho + bounds.rhoLow);
    if (nextRho > bounds.rhoHigh) nextRho = 0.5 * (rho + bounds.rhoHigh);
    const held = Math.abs(nextT - T - stepT) > smallStep * T;
    T = nextT;
    rho = nextRho;
    if (size < smallStep && !held) {
      work.T = T;
      work.delta = rho / fluid.rhor;
      work.iterations = iteration;
      evaluateProperties(fluid, T, rho, work);
      return true;
    }
  }
  return false;
}

function clip(value: number, size: number): number {
  return Math.max(-size, Math.min(size, value));
}
