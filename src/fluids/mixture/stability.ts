import { solveLinear } from "../../numerics/index.ts";
import { evaluateAtPressure, lnPhiOf, lnVolatility } from "./k-values.ts";
import type { Mixture } from "./mixture.ts";
import type { MixtureWork } from "./mixture-work.ts";
import { densityRoot, hasTwoSides, residualGibbs, type RootSide } from "./phase-density.ts";
import { evaluateFugacityDerivatives, evaluatePhase, placePhase } from "./phase-kernel.ts";

/** Amounts of a trial phase may exceed 1 by rounding only where the feed is stable. */
const amountRounding = 1e-11;
/** A tangent-plane distance below this is no rounding. */
const clearlyBelow = 1e-7;
const substitutions = 3;
const maxSteps = 80;
/** Of the distance itself, near a minimum. */
const distanceRounding = 1e-13;

/**
 * Evaluates the feed at T, p at its density of lowest Gibbs energy and keeps ln z_i + ln φ_i in work.d.
 *
 * @returns  The side of that density where there are two, `only` where there is one, or undefined
 *           where there is none: the equation has no such state.
 */
export function evaluateFeed(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  p: number,
  work: MixtureWork,
): RootSide | "only" | undefined {
  const { feed, d } = work;
  placePhase(mix, feed, T, z);
  const deltaL = densityRoot(mix, feed, p, "liquid");
  const deltaV = densityRoot(mix, feed, p, "vapour");
  if (deltaL === 0 && deltaV === 0) return undefined;
  const single = deltaL === 0 || deltaV === 0 || Math.abs(deltaL / deltaV - 1) < 1e-6;
  let side: RootSide | "only" = "only";
  if (single) evaluatePhase(mix, feed, (deltaL || deltaV) / feed.vr.value);
  else {
    evaluatePhase(mix, feed, deltaV / feed.vr.value);
    const ofVapour = residualGibbs(mix, feed, p);
    evaluatePhase(mix, feed, deltaL / feed.vr.value);
    side = residualGibbs(mix, feed, p) <= ofVapour ? "liquid" : "vapour";
    if (side === "vapour") evaluatePhase(mix, feed, deltaV / feed.vr.value);
  }
  for (let i = 0; i < mix.n; i++) {
    d[i] = feed.x[i] === 0 ? -Infinity : Math.log(feed.x[i]) + lnPhiOf(feed, i, p);
  }
  return side;
}

/**
 * Michelsen's tangent-plane test of the feed in `work` (after {@link evaluateFeed}).
 *
 * Trial phases of both kinds start from the pure fluids' volatilities; substitution first, then
 * Newton's method to the stationary point, so that a distance of 1e-11 still has the right sign.
 *
 * @returns  `stable`, or the kind of the trial phase whose Gibbs energy lies below the tangent
 *           plane: then work.lnK leads to a split.
 *
 * Limits: liquid-liquid splits are not sought.
 * Source: Michelsen, Fluid Phase Equilib. 9 (1982) 1
 */
export function testStability(
  mix: Mixture,
  T: number,
  p: number,
  work: MixtureWork,
): "stable" | RootSide {
  const { feed } = work;
  const delta = feed.rho * feed.vr.value;
  // A clear liquid can only give off vapour, a thin vapour only drops.
  const liquid = delta > 1.7 && hasTwoSides(feed);
  const trial = { T, p, depth: "first" } as const;
  if (!liquid && isUnstable(mix, { ...trial, side: "liquid" }, work)) return "liquid";
  if (delta > 0.4 && isUnstable(mix, { ...trial, side: "vapour" }, work)) return "vapour";
  return "stable";
}

/** A trial phase and how far its search goes. */
export interface Trial {
  readonly T: number;
  readonly p: number;
  readonly side: RootSide;
  /**
   * `first`: to the first trial clearly below the tangent plane; `lowest`: to the minimum, whose
   * composition is the better start where a split is hard to find.
   */
  readonly depth: "first" | "lowest";
}

/** Whether trial phases of one kind lie below the tangent plane of the feed; then with work.lnK. */
export function isUnstable(mix: Mixture, test: Trial, work: MixtureWork): boolean {
  const { n } = mix;
  const { T, p, side } = test;
  const { feed, lnY, d, lnK } = work;
  const lnP = Math.log(p);
  const sign = side === "vapour" ? 1 : -1;
  for (let i = 0; i < n; i++) {
    const ideal = lnVolatility(mix.fluids[i], T) - lnP;
    lnY[i] = feed.x[i] === 0 ? -Infinity : Math.log(feed.x[i]) + sign * ideal;
  }
  const found = minimiseDistance(mix, test, work);
  if (found !== "below") return false;
  for (let i = 0; i < n; i++) {
    const ratio = feed.x[i] === 0 ? lnPhiOf(feed, i, p) - lnPhiOf(work.trial, i, p) : lnY[i] - d[i];
    lnK[i] = feed.x[i] === 0 ? sign * ratio : sign * (lnY[i] - Math.log(feed.x[i]));
  }
  return true;
}

/**
 * Moves ln Y downhill to a minimum of the tangent-plane distance: substitution, then Newton's method
 * in α = 2√Y, damped (Levenberg and Marquardt) while it would go uphill.
 */
function minimiseDistance(
  mix: Mixture,
  { T, p, side, depth }: Trial,
  work: MixtureWork,
): "below" | "above" | "trivial" {
  const { trial } = work;
  let previous = Infinity;
  let damping = 0;
  let ofSide = false;
  let from = 0;
  for (let step = 0; step < maxSteps; step++) {
    const found = evaluateTrial(mix, { T, p, side, from }, work);
    if (found === "none") return "above";
    from = found === side ? trial.rho : 0;
    // A second liquid below the tangent plane is out of scope.
    ofSide = found === side || !hasTwoSides(trial);
    const distance = tangentDistance(mix, p, work);
    if (step > substitutions && distance > previous + distanceRounding) {
      damping = damping === 0 ? 1 : 4 * damping;
      if (damping > 1e5) return "above";
      work.lnY.set(work.kept);
    } else {
      if (depth === "first" && step >= substitutions && ofSide && distance < -clearlyBelow) {
        return "below";
      }
      if (isFeed(mix, work)) return "trivial";
      previous = distance;
      damping = damping < 0.02 ? 0 : 0.2 * damping;
      work.kept.set(work.lnY);
      if (step < substitutions) {
        if (substituteTrial(mix, p, work) < 1e-9) break;
        continue;
      }
      fillDistance(mix, p, work);
    }
    const change = stepDownhill(mix, damping, work);
    if (change < 1e-10) break;
    if (!(change < Infinity)) return "above";
  }
  const below = amount(mix, work) > 1 + amountRounding && previous < distanceRounding;
  return ofSide && below ? "below" : "above";
}

/** Where a trial phase is evaluated, and its density of the step before. */
interface TrialPlace {
  readonly T: number;
  readonly p: number;
  readonly side: RootSide;
  readonly from: number;
}

/** Evaluates the trial; tells which side its density root is of. */
function evaluateTrial(
  mix: Mixture,
  { T, p, side, from }: TrialPlace,
  { trial, lnY }: MixtureWork,
): RootSide | "none" {
  for (let i = 0; i < mix.n; i++) trial.x[i] = Math.exp(lnY[i]);
  return evaluateAtPressure(mix, trial, T, p, trial.x, side, from);
}

function amount({ n }: Mixture, { lnY }: MixtureWork): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += Math.exp(lnY[i]);
  return sum;
}

/** Modified distance 1 + ΣY·(ln Y + ln φ(Y) − d − 1) of the evaluated trial. */
function tangentDistance({ n }: Mixture, p: number, { trial, lnY, d }: MixtureWork): number {
  let sum = 1;
  for (let i = 0; i < n; i++) {
    if (d[i] === -Infinity) continue;
    sum += Math.exp(lnY[i]) * (lnY[i] + lnPhiOf(trial, i, p) - d[i] - 1);
  }
  return sum;
}

function substituteTrial(mix: Mixture, p: number, { trial, lnY, d }: MixtureWork): number {
  let largest = 0;
  for (let i = 0; i < mix.n; i++) {
    if (d[i] === -Infinity) continue;
    const next = d[i] - lnPhiOf(trial, i, p);
    largest = Math.max(largest, Math.abs(next - lnY[i]));
    lnY[i] = next;
  }
  return largest;
}

/** Gradient and second derivatives of the distance in α at the evaluated trial. */
function fillDistance(mix: Mixture, p: number, work: MixtureWork): void {
  const { n } = mix;
  const { trial, lnY, d, gradient, hessian } = work;
  evaluateFugacityDerivatives(mix, trial);
  const sum = amount(mix, work);
  for (let i = 0; i < n; i++) {
    const present = d[i] !== -Infinity;
    const root = present ? Math.exp(0.5 * lnY[i]) : 0;
    gradient[i] = present ? root * (lnY[i] + lnPhiOf(trial, i, p) - d[i]) : 0;
    for (let j = 0; j < n; j++) {
      const other = d[j] === -Infinity ? 0 : Math.exp(0.5 * lnY[j]);
      hessian[i * n + j] = (i === j ? 1 : 0) + (root * other * trial.phi[i * n + j]) / sum;
    }
  }
}

/** One step from work.kept; returns the largest change of α, Infinity if there is none downhill. */
function stepDownhill({ n }: Mixture, damping: number, work: MixtureWork): number {
  const { gradient, hessian, matrix, right, lnY, kept, d } = work;
  for (let extra = damping; extra < 1e6; extra = extra === 0 ? 1 : 4 * extra) {
    let slope = 0;
    for (let k = 0; k < n * n; k++) matrix[k] = hessian[k];
    for (let i = 0; i < n; i++) {
      matrix[i * n + i] += extra;
      right[i] = -gradient[i];
    }
    if (!solveLinear(n, matrix, right)) continue;
    for (let i = 0; i < n; i++) slope += right[i] * gradient[i];
    if (slope > 0) continue;
    let largest = 0;
    for (let i = 0; i < n; i++) {
      if (d[i] === -Infinity) continue;
      largest = Math.max(largest, Math.abs(right[i]));
      const root = Math.exp(0.5 * kept[i]);
      lnY[i] = 2 * Math.log(Math.max(0.1 * root, root + 0.5 * right[i]));
    }
    return largest;
  }
  return Infinity;
}

/** Whether the trial has come back to the feed itself. */
function isFeed({ n }: Mixture, { lnY, feed, trial }: MixtureWork): boolean {
  if (Math.abs(trial.rho / feed.rho - 1) > 1e-3) return false;
  for (let i = 0; i < n; i++) {
    if (feed.x[i] > 0 && Math.abs(lnY[i] - Math.log(feed.x[i])) > 1e-4) return false;
  }
  return true;
}
