import {
  type PureFluid,
  saturatedPhases,
  saturationAtP,
  saturationAtT,
  statePH,
  statePQ,
  statePS,
  stateTP,
  stateTQ,
  stateTRho,
  type StateOutcome,
} from "../fluids/index.ts";
import { findRoot } from "../numerics/index.ts";

/** The quantities of a state, by symbol; molar SI. */
export type Symbol = "T" | "p" | "h" | "s" | "rho" | "q";

/** Thinnest gas that is searched for, as a fraction of a density that is known. */
const THINNEST = 1e-12;

/** Room for the rounding of a state that is meant to be saturated. */
const SLACK = 1e-9;

const clamp = (q: number): number => Math.min(1, Math.max(0, q));

const notFound = (quantity: "s" | "rho", value: number, T: number, p: number): StateOutcome => ({
  kind: "failed",
  reason: "not-converged",
  quantity,
  value,
  reached: value,
  T,
  p,
  iterations: 0,
});

/**
 * State at a temperature and entropy. Entropy falls with density along an isotherm wherever pressure rises with
 * temperature at constant volume, which is everywhere but in water below 4 °C; so one root is enough.
 */
function stateTS(fluid: PureFluid, T: number, s: number): StateOutcome {
  const { info } = fluid;
  const densest = stateTP(fluid, T, info.pmax);
  if (densest.kind === "failed") return densest;
  const sat = saturationAtT(fluid, T);
  let [thin, dense] = [densest.rho * THINNEST, densest.rho];
  if (sat.kind === "saturated") {
    const { liquid, vapour } = saturatedPhases(fluid, sat);
    const q = (s - liquid.s) / (vapour.s - liquid.s);
    if (q >= -SLACK && q <= 1 + SLACK) return stateTQ(fluid, T, clamp(q));
    if (s < liquid.s) thin = sat.rhoL;
    else dense = sat.rhoV;
  }
  const off = (lnRho: number): number => {
    const state = stateTRho(fluid, T, Math.exp(lnRho));
    // Beyond the equation's highest pressure entropy is lower than any that is asked for.
    return state.kind === "state" ? state.s - s : -Infinity;
  };
  const root = findRoot(off, Math.log(thin), Math.log(dense));
  if (root.kind === "failed") return notFound("s", s, T, densest.p);
  return stateTRho(fluid, T, Math.exp(root.x));
}

/**
 * State at a pressure and density. Pressure rises with temperature at constant volume (water below 4 °C again
 * excepted), so one root is enough.
 */
function statePRho(fluid: PureFluid, p: number, rho: number): StateOutcome {
  const { info } = fluid;
  const sat = saturationAtP(fluid, p);
  let [cold, hot] = [info.Tmin, info.Tmax];
  if (sat.kind === "saturated") {
    const { rhoL, rhoV } = sat;
    if (rho >= rhoV * (1 - SLACK) && rho <= rhoL * (1 + SLACK)) {
      return statePQ(fluid, p, clamp((1 / rho - 1 / rhoL) / (1 / rhoV - 1 / rhoL)));
    }
    if (rho > rhoL) hot = sat.T;
    else cold = sat.T;
  }
  const off = (T: number): number => {
    const state = stateTRho(fluid, T, rho);
    if (state.kind === "state") return state.p - p;
    return state.quantity === "p" ? Infinity : NaN;
  };
  const root = findRoot(off, cold, hot);
  if (root.kind === "failed") return notFound("rho", rho, cold, p);
  return stateTRho(fluid, root.x, rho);
}

type Solver = (fluid: PureFluid, first: number, second: number) => StateOutcome;

/** Pairs that fix a state, by their symbols in the order of the arguments. */
const solvers: ReadonlyMap<string, Solver> = new Map<string, Solver>([
  ["T p", stateTP],
  ["T q", stateTQ],
  ["p q", statePQ],
  ["p h", statePH],
  ["p s", statePS],
  ["T rho", stateTRho],
  ["T s", stateTS],
  ["p rho", statePRho],
]);

export const acceptedPairs: string = [...solvers.keys()]
  .map((pair) => `(${pair.replace(" ", ", ")})`)
  .join(", ");

/** The solver of a pair and its arguments in order; `undefined` if the pair does not fix one state simply. */
export function solverOf(
  first: Symbol,
  second: Symbol,
): { readonly solve: Solver; readonly symbols: readonly [Symbol, Symbol] } | undefined {
  const there = solvers.get(`${first} ${second}`);
  if (there) return { solve: there, symbols: [first, second] };
  const back = solvers.get(`${second} ${first}`);
  return back && { solve: back, symbols: [second, first] };
}
