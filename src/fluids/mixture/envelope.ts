import { idealLnK, idealTemperature } from "./k-values.ts";
import type { Mixture } from "./mixture.ts";
import type { MixtureWork, PhaseWork } from "./mixture-work.ts";
import { targetsOf, type SaturationEnd, type SaturationTarget } from "./saturation-target.ts";
import { newtonSplit } from "./split-newton.ts";

/** Pressures, Pa, at which the line is looked for to begin with: the first inside the limits of T. */
const startPressures = [2e4, 1e5, 3e5, 1e6, 3e6, 3e3];
const maxPoints = 400;
/** Iterations of a step that went well, and too many for the next to be as long. */
const [easy, laborious, maxCorrections] = [3, 5, 9];
/** Longest change of ln K, ln T and ln p from point to point. */
const longest = { lnK: 0.6, lnT: 0.04, lnP: 0.4 };
const shortest = 1e-5;
/** The critical point is stepped over where all ln K and the ratio of densities are this small. */
const nearCritical = { lnK: 0.03, lnRho: 0.25 };

/** A point of the envelope: ln K_1 … ln K_n, ln T, ln p, ln ρ of `liquid` and `vapour`. */
type Point = Float64Array;

/**
 * Follows the phase envelope of a feed from low pressure until it meets the target: through the
 * critical point if need be, after which the phases have exchanged their names.
 *
 * Bubble points are sought on the line of β = 0, then on the dew line past the critical point.
 *
 * @returns  `found` with the point in `work`; `beyond-envelope` with the range in which such points
 *           were met, if any, when the line left the limits or could not be followed on.
 *
 * Source: Michelsen, Fluid Phase Equilib. 4 (1980) 1
 */
export function traceEnvelope(
  mix: Mixture,
  z: ArrayLike<number>,
  target: SaturationTarget,
  work: MixtureWork,
): SaturationEnd {
  // A bubble point of a blend with a permanent gas lies on the dew line beyond the critical point.
  const lines = target.beta === 0 ? [0, 1] : [target.beta];
  let range: Range | undefined;
  let followed = false;
  for (const line of lines) {
    const p = startPressures.find((each) => startLine(mix, z, each, line, work));
    if (p === undefined) continue;
    const end = follow(mix, z, target, line, work);
    if (end.kind === "found") return end;
    if (end.kind === "not-converged") continue;
    followed = true;
    range = union(range, end.range);
  }
  return followed ? { kind: "beyond-envelope", range } : { kind: "not-converged" };
}

interface Range {
  readonly from: number;
  readonly to: number;
}

function union(first: Range | undefined, second: Range | undefined): Range | undefined {
  if (!first || !second) return first ?? second;
  return { from: Math.min(first.from, second.from), to: Math.max(first.to, second.to) };
}

function startLine(
  mix: Mixture,
  z: ArrayLike<number>,
  p: number,
  beta: number,
  work: MixtureWork,
): boolean {
  work.T = idealTemperature(mix, z, p, beta);
  work.p = p;
  work.beta = beta;
  idealLnK(mix, work.T, p, work.lnK);
  work.liquid.rho = 0;
  work.vapour.rho = 0;
  const targets = targetsOf({ quantity: "p", value: p }, beta);
  if (newtonSplit(mix, z, targets, work) !== "converged") return false;
  return work.T >= mix.limits.Tmin && work.T <= mix.limits.Tmax;
}

function follow(
  mix: Mixture,
  z: ArrayLike<number>,
  target: SaturationTarget,
  line: number,
  work: MixtureWork,
): SaturationEnd {
  const { n, limits } = mix;
  const place = target.quantity === "T" ? n : n + 1;
  const lnTarget = Math.log(target.value);
  let previous = readPoint(n, work);
  let step = firstStep(n);
  let range: Range | undefined;
  let left = false;
  for (let count = 0; count < maxPoints; count++) {
    if (!correct(mix, z, { previous, step, line }, work)) {
      step = step.map((each) => 0.3 * each);
      if (Math.max(...step.map(Math.abs)) < shortest) break;
      continue;
    }
    const { iterations } = work;
    const point = readPoint(n, work);
    if (phasesAreNamed(mix, work) === (target.beta === line)) {
      const here = Math.exp(point[place]);
      range = union(range, { from: here, to: here });
      const crossed = (previous[place] - lnTarget) * (point[place] - lnTarget) <= 0;
      if (crossed && finish(mix, z, { target, line, previous, point }, work)) {
        return { kind: "found" };
      }
    }
    const [T, p] = [Math.exp(point[n]), Math.exp(point[n + 1])];
    left = p > limits.pmax || p < 100 || T < limits.Tmin || T > limits.Tmax;
    if (left) break;
    const grow = iterations <= easy ? 1.7 : iterations <= laborious ? 1 : 0.6;
    step = limited(
      point.map((each, k) => grow * (each - previous[k])),
      n,
    );
    previous = point;
  }
  return range || left ? { kind: "beyond-envelope", range } : { kind: "not-converged" };
}

/** Up by a tenth in pressure, as at low pressure. */
function firstStep(n: number): Point {
  const step = new Float64Array(n + 4);
  step[n] = 0.01;
  step[n + 1] = 0.1;
  step[n + 3] = 0.09;
  return step;
}

function limited(step: Point, n: number): Point {
  let scale = 1;
  for (let i = 0; i < n; i++) scale = Math.min(scale, longest.lnK / Math.abs(step[i]));
  scale = Math.min(scale, longest.lnT / Math.abs(step[n]), longest.lnP / Math.abs(step[n + 1]));
  return step.map((each) => scale * each);
}

interface Move {
  readonly previous: Point;
  readonly step: Point;
  readonly line: number;
}

/** Newton's method at the predicted point, with the unknown that moves fastest held. */
function correct(
  mix: Mixture,
  z: ArrayLike<number>,
  { previous, step, line }: Move,
  work: MixtureWork,
): boolean {
  const { n } = mix;
  let index = 0;
  for (let i = 1; i < n + 2; i++) if (Math.abs(step[i]) > Math.abs(step[index])) index = i;
  let next = previous.map((each, k) => each + step[k]);
  const lnK = next.subarray(0, n);
  const lnRatio = Math.abs(next[n + 2] - next[n + 3]);
  if (Math.max(...lnK.map(Math.abs)) < nearCritical.lnK && lnRatio < nearCritical.lnRho) {
    // Here the matrix is nearly singular: go on to the mirror image of where we came from.
    index = 0;
    for (let i = 1; i < n; i++) if (Math.abs(previous[i]) > Math.abs(previous[index])) index = i;
    const share = (-2 * previous[index]) / step[index];
    if (share > 0) next = previous.map((each, k) => each + share * step[k]);
  }
  writePoint(n, next, work);
  work.beta = line;
  const value = index < n ? next[index] : Math.exp(next[index]);
  const quantity = index < n ? "lnK" : index === n ? "T" : "p";
  const targets = targetsOf({ quantity, value, index }, line);
  if (newtonSplit(mix, z, targets, work, maxCorrections) !== "converged") return false;
  // A correction much longer than the step has found another branch.
  const point = readPoint(n, work);
  return point.every((each, k) => Math.abs(each - next[k]) < 0.5 + Math.abs(step[k]));
}

interface Crossing {
  readonly target: SaturationTarget;
  readonly line: number;
  readonly previous: Point;
  readonly point: Point;
}

/** Newton's method for the target itself, from between the two points around it. */
function finish(
  mix: Mixture,
  z: ArrayLike<number>,
  { target, line, previous, point }: Crossing,
  work: MixtureWork,
): boolean {
  const { n } = mix;
  const place = target.quantity === "T" ? n : n + 1;
  const share = (Math.log(target.value) - previous[place]) / (point[place] - previous[place]);
  writePoint(
    n,
    previous.map((each, k) => each + share * (point[k] - each)),
    work,
  );
  work.beta = line;
  const targets = targetsOf({ quantity: target.quantity, value: target.value }, line);
  if (newtonSplit(mix, z, targets, work) !== "converged") return false;
  if (phasesAreNamed(mix, work) !== (target.beta === line)) return false;
  if (target.beta !== line) exchangePhases(n, work);
  return true;
}

/** Calls the phases by their other names: the line of vapour fraction 1 becomes that of 0. */
function exchangePhases(n: number, work: MixtureWork): void {
  for (let i = 0; i < n; i++) work.lnK[i] *= -1;
  work.beta = 1 - work.beta;
  const kept = work.liquid.rho;
  work.liquid.rho = work.vapour.rho;
  work.vapour.rho = kept;
}

/** Whether the phase of larger mass density is the one called liquid. */
export function phasesAreNamed(mix: Mixture, { liquid, vapour }: MixtureWork): boolean {
  return massDensity(mix, liquid) > massDensity(mix, vapour);
}

function massDensity({ n, M }: Mixture, { rho, x }: PhaseWork): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += x[i] * M[i];
  return rho * sum;
}

function readPoint(n: number, { lnK, T, p, liquid, vapour }: MixtureWork): Point {
  const point = new Float64Array(n + 4);
  point.set(lnK);
  point[n] = Math.log(T);
  point[n + 1] = Math.log(p);
  point[n + 2] = Math.log(liquid.rho);
  point[n + 3] = Math.log(vapour.rho);
  return point;
}

function writePoint(n: number, point: Point, work: MixtureWork): void {
  work.lnK.set(point.subarray(0, n));
  work.T = Math.exp(point[n]);
  work.p = Math.exp(point[n + 1]);
  work.liquid.rho = Math.exp(point[n + 2]);
  work.vapour.rho = Math.exp(point[n + 3]);
}
