import type { Circuit, Regime } from "./circuit.ts";
import { startFrom } from "./guesses.ts";
import { newtonCircuit, type NewtonWork } from "./newton.ts";
import { enterRegime, settle } from "./settle.ts";

export type FollowEnd = "found" | "high-pressure" | "lost";

/** Outlets from which a branch is picked up: somewhere on it Newton's method finds one. */
const origins = [0.03, -0.1, 0.25, -0.5, -0.9];
/** Condensing excess over the air, K, and duty tried at each. */
const tries = [
  { excess: 14, duty: 0.6 },
  { excess: 25, duty: "full" },
  { excess: 7, duty: 0.15 },
] as const;
const ends = { low: -1.99, high: 0.96 };
const steps = { first: 0.08, smallest: 0.0008, growth: 1.6, shrink: 0.35 };
const newtonLimit = 14;
/** Evaluations after which no further branch is picked up. */
const followBudget = 3000;
/** Steps along ln of the charge. */
const chargeSteps = { first: 0.05, smallest: 1e-3 };
const rootSteps = 12;

/**
 * How far the condenser's outlet is from the one that fits the charge: below 0 more liquid must
 * come to stand in the condenser, above 0 less.
 *
 * The regimes as one function: max(A, min(gap, C)) with A = ln(M/charge) and C = ln((M + m_max)/charge).
 */
function misfit({ M, mMax, charge, gap }: Circuit): number {
  const starved = Math.log(M / charge);
  const flooded = Math.log((M + mMax) / charge);
  return Math.max(starved, Math.min(gap, flooded));
}

function regimeThere({ M, mMax, charge, gap }: Circuit): Regime {
  if (Math.log(M / charge) > gap) return "starved";
  return Math.log((M + mMax) / charge) < gap ? "flooded" : "balanced";
}

/**
 * Follows the steady states along the condenser's outlet, where they have no folds, to the one that
 * fits the charge.
 *
 * @param limit Highest condensing pressure, Pa: a branch that passes it before the charge fits ends there.
 */
export function followOutlet(circuit: Circuit, work: NewtonWork, limit: number): FollowEnd {
  let end: FollowEnd = "lost";
  const budget = circuit.evaluations + followBudget;
  for (const origin of origins) {
    if (circuit.evaluations > budget) break;
    if (!pickUp(circuit, origin, work)) continue;
    end = follow(circuit, work, limit);
    if (end !== "lost") return end;
  }
  return end;
}

/** Newton's method with the outlet held; the return air moves along. */
function hold(circuit: Circuit, work: NewtonWork): boolean {
  work.outletFixed = true;
  const found = newtonCircuit(circuit, work, newtonLimit);
  work.outletFixed = false;
  return found;
}

function pickUp(circuit: Circuit, y: number, work: NewtonWork): boolean {
  for (const { excess, duty } of tries) {
    startFrom(circuit, { regime: "starved", excess, duty, y, a: y < 0 ? 0.9 : 0.4 });
    if (hold(circuit, work)) return true;
  }
  return false;
}

interface Kept {
  readonly d: number;
  readonly lnPc: number;
  readonly y: number;
  readonly a: number;
  readonly Tret: number;
  readonly Wret: number;
}

const keep = ({ d, lnPc, y, a, Tret, Wret }: Circuit): Kept => ({ d, lnPc, y, a, Tret, Wret });

function follow(circuit: Circuit, work: NewtonWork, limit: number): FollowEnd {
  let f1 = misfit(circuit);
  let at = keep(circuit);
  const up = f1 < 0;
  let step = up ? steps.first : -steps.first;
  while (Math.abs(step) > steps.smallest) {
    const y = Math.min(ends.high, Math.max(ends.low, at.y + step));
    if (y === at.y) break;
    Object.assign(circuit, at, { y });
    if (!hold(circuit, work)) {
      step *= steps.shrink;
      continue;
    }
    const f2 = misfit(circuit);
    if (up && f2 < 0 && circuit.pc > limit) return "high-pressure";
    if (f2 > 0 !== f1 > 0) return close(circuit, work, at, f1);
    at = keep(circuit);
    f1 = f2;
    step *= steps.growth;
  }
  Object.assign(circuit, at);
  if (!hold(circuit, work)) return "lost";
  if (!up && at.y <= -1) {
    enterRegime(circuit, "gas");
    if (settle(circuit, work)) return "found";
    Object.assign(circuit, at);
    circuit.regime = "starved";
    if (!hold(circuit, work)) return "lost";
  }
  if (up && circuit.pc > 0.96 * limit) return "high-pressure";
  return followCharge(circuit, work, limit);
}

/**
 * Follows a starved branch along its charge: that passes the folds that the outlet meets at high
 * pressure, where more charge stands in the condenser at a drier outlet.
 */
function followCharge(circuit: Circuit, work: NewtonWork, limit: number): FollowEnd {
  const target = circuit.charge;
  const from = Math.log(circuit.M);
  const to = Math.log(target);
  let at = from;
  let step = Math.sign(to - from) * chargeSteps.first;
  let end: FollowEnd = "lost";
  while (end === "lost" && Math.abs(step) > chargeSteps.smallest) {
    const kept = keep(circuit);
    const next = Math.abs(to - at) <= Math.abs(step) ? to : at + step;
    circuit.charge = Math.exp(next);
    if (!newtonCircuit(circuit, work, newtonLimit)) {
      Object.assign(circuit, kept);
      step *= steps.shrink;
      continue;
    }
    at = next;
    step *= steps.growth;
    if (circuit.pc > limit) end = "high-pressure";
    else if (at === to) end = settle(circuit, work) ? "found" : "lost";
    if (at === to) break;
  }
  circuit.charge = target;
  return end;
}

/** From two outlets with the fit between them to the regime that holds there. */
function close(circuit: Circuit, work: NewtonWork, from: Kept, fFrom: number): FollowEnd {
  let [y1, f1] = [from.y, fFrom];
  let [y2, f2] = [circuit.y, misfit(circuit)];
  for (let k = 0; k < rootSteps; k++) {
    const here = keep(circuit);
    enterRegime(circuit, regimeThere(circuit));
    if (settle(circuit, work, newtonLimit)) return "found";
    Object.assign(circuit, here);
    circuit.regime = "starved";
    // Two secants, then a halving: the misfit bends where the regime changes.
    const y = k % 3 === 2 ? 0.5 * (y1 + y2) : y1 - (f1 * (y2 - y1)) / (f2 - f1);
    circuit.y = y;
    if (!hold(circuit, work)) return "lost";
    const f = misfit(circuit);
    if (f > 0 === f1 > 0) [y1, f1] = [y, f];
    else [y2, f2] = [y, f];
  }
  return "lost";
}
