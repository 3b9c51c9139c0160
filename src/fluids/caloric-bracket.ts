import { findRoot } from "../numerics/index.ts";
import type { CaloricTarget, PhaseBounds } from "./caloric-newton.ts";
import { solveDensity } from "./density.ts";
import { evaluateIdeal } from "./ideal.ts";
import { H, propertiesAtDensity, S } from "./properties.ts";
import type { PureFluid } from "./pure-fluid.ts";
import type { StateFailure } from "./state.ts";
import type { StateWork } from "./state-work.ts";

/** Room for a value that is meant to be that of a limit of temperature, in units of R·T or R. */
const slack = 1e-8;

/**
 * Searches the temperature of a phase at a pressure with the density solved at every trial.
 *
 * Enthalpy and entropy rise with temperature at constant pressure, so a bracket cannot fail unless
 * the value lies outside it.
 *
 * @param work  On success work.T, work.delta and work.out hold the state.
 * @returns     A failure, or undefined for success.
 */
export function bracketCaloric(
  fluid: PureFluid,
  target: CaloricTarget,
  bounds: PhaseBounds,
  work: StateWork,
): StateFailure | undefined {
  const { p, value, quantity } = target;
  const { Tlow, Thigh } = bounds;
  const place = quantity === "h" ? H : S;
  const at = (T: number, side = bounds.side): number => {
    if (!solveDensity(fluid, T, p, work, side)) return Number.NaN;
    evaluateIdeal(fluid.ideal, fluid.Tr / T, work.ideal);
    propertiesAtDensity(fluid, T, work.delta * fluid.rhor, work);
    work.T = T;
    return work.out[place];
  };
  const [low, high] = [at(Tlow), at(Thigh)];
  const room = slack * fluid.R * (quantity === "h" ? Tlow : 1);
  if (value < low - room || value > high + room) {
    const [from, to] = [at(fluid.info.Tmin, "stable"), at(fluid.info.Tmax, "stable")];
    return { kind: "failed", reason: "out-of-range", quantity, value, from, to };
  }
  if (value <= low || value >= high) {
    at(value <= low ? Tlow : Thigh);
    return undefined;
  }
  const root = findRoot((T) => at(T) - value, Tlow, Thigh);
  if (root.kind === "root") {
    at(root.x);
    return undefined;
  }
  return {
    kind: "failed",
    reason: "not-converged",
    quantity,
    value,
    reached: value + root.residual,
    T: root.at,
    p,
    iterations: root.iterations,
  };
}
