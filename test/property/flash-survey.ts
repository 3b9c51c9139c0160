import {
  saturationAtT,
  statePH,
  statePS,
  stateTP,
  stateTRho,
  type PureFluid,
  type State,
  type StateOutcome,
} from "../../src/fluids/index.ts";
import { createRandom, type Random } from "../../src/numerics/index.ts";

/** What a survey of states found. Differences are relative; of p to max(p, ρRT/1000). */
export interface Survey {
  readonly states: number;
  readonly failures: readonly string[];
  readonly worst: { p: number; "T from p, h": number; "T from p, s": number };
}

/** Pressures go up to this or to the limit of the equation. */
const highest = 80e6;
const lowest = 100;

/**
 * Draws states of a fluid and asks for each of them in every way.
 *
 * Temperatures lie between the least one and 0.999 Tc, or the greatest one; pressures are spread
 * evenly, evenly in the logarithm, or within 0.05 % of saturation, where phases are decided.
 *
 * @param count  States drawn; the same seed draws the same ones.
 */
export function surveyFlashes(pure: PureFluid, count: number, seed: number): Survey {
  const random = createRandom(seed);
  const failures: string[] = [];
  const worst = { p: 0, "T from p, h": 0, "T from p, s": 0 };
  const settle = (outcome: StateOutcome, what: string): State | undefined => {
    if (outcome.kind === "state") return outcome;
    failures.push(`${pure.info.id} ${what}: ${JSON.stringify(outcome)}`);
    return undefined;
  };
  for (let k = 0; k < count; k++) {
    const { T, p } = draw(pure, k, random);
    const state = settle(stateTP(pure, T, p), `T = ${String(T)}, p = ${String(p)}`);
    if (!state) continue;
    const { rho, h, s } = state;
    const direct = settle(stateTRho(pure, T, rho), `T = ${String(T)}, rho = ${String(rho)}`);
    const byH = settle(statePH(pure, p, h), `p = ${String(p)}, h = ${String(h)}`);
    const byS = settle(statePS(pure, p, s), `p = ${String(p)}, s = ${String(s)}`);
    if (!direct || !byH || !byS) continue;
    const scale = Math.max(p, (rho * pure.R * T) / 1000);
    worst.p = Math.max(worst.p, Math.abs(direct.p - p) / scale);
    worst["T from p, h"] = Math.max(worst["T from p, h"], Math.abs(byH.T / T - 1));
    worst["T from p, s"] = Math.max(worst["T from p, s"], Math.abs(byS.T / T - 1));
  }
  return { states: count, failures, worst };
}

function draw(pure: PureFluid, k: number, random: Random): { T: number; p: number } {
  const { Tmin, Tmax, pmax } = pure.info;
  const top = k % 2 === 0 ? 0.999 * pure.critical.T : Tmax;
  const limit = Math.min(highest, pmax);
  const T = Tmin + random() * (top - Tmin);
  const saturated = saturationAtT(pure, T);
  if (k % 3 === 0) return { T, p: limit * random() };
  if (k % 3 === 1 && saturated.kind === "saturated") {
    return { T, p: Math.min(limit, saturated.p * (1 + 1e-3 * (random() - 0.5))) };
  }
  return { T, p: Math.exp(Math.log(lowest) + random() * Math.log(limit / lowest)) };
}
