import type { CriticalPoint } from "./critical-point.ts";
import type { Equation } from "./equation.ts";
import type { Ancillary, FluidFile } from "./fluid-file.ts";
import type { ResidualWork } from "./residual-model.ts";
import { solveSaturation, type SolvedSaturation } from "./saturation-solve.ts";

/** Coexisting states as a function of x = √(1 − T/Tc), in which they are smooth up to x = 0. */
export type SaturationCurve = (x: number) => {
  readonly lnP: number;
  readonly rhoL: number;
  readonly lnRhoV: number;
};

/** Where the march over the whole curve begins; ancillaries are at their best around here. */
const start = 0.3;
/** Equations are solved down to this x; what is nearer to the critical point is interpolated. */
const nearest = 0.002;
/** With non-analytic terms Newton's method fails nearer than this. */
const nearestNonAnalytic = 0.002;
/** Below this x the smooth function through both branches replaces the solution. */
const coreEdge = 0.006;
/** The march has this spacing, but near the critical point x falls by a fixed share a step. */
const spacing = 0.01;
const share = 0.8;

/**
 * Solves the coexistence curve of an equation once, so that it can be asked anywhere.
 *
 * A march with extrapolated starting values leads from one solution to the next, in both
 * directions; a question between two of them starts from their neighbours.
 *
 * Near the critical point the two densities are the values at +x and −x of one smooth function,
 * and ln p is even in x, so their interpolation across x = 0 needs no solution in the region where
 * rounding spoils it. Non-analytic terms break that smoothness; there the plain solution is used.
 *
 * @throws  Error naming the place if a solution is not found: the equation or the data is bad.
 */
export function saturationGuide(
  file: FluidFile,
  equation: Equation,
  critical: CriticalPoint,
  work: ResidualWork,
): SaturationCurve {
  const analytic = equation.residual.nonAnalytic.n.length === 0;
  const far = Math.sqrt(1 - file.validity.Tmin / critical.T);
  const xs: number[] = [];
  const solved: SolvedSaturation[] = [];
  const temperature = (x: number): number => critical.T * (1 - x * x);
  const solve = (x: number, guess: { rhoL: number; rhoV: number }): SolvedSaturation => {
    const outcome = solveSaturation(equation, temperature(x), guess, work);
    if (outcome.kind === "failed") {
      throw new Error(`${file.id}: saturation at ${outcome.T} K, x = ${x}: ${outcome.reason}`);
    }
    return outcome;
  };
  const guessAt = (x: number, from: readonly number[]): { rhoL: number; rhoV: number } => ({
    rhoL: interpolate(from, x, (k) => solved[k].rhoL, xs),
    rhoV: Math.exp(interpolate(from, x, (k) => Math.log(solved[k].rhoV), xs)),
  });

  xs.push(start);
  solved.push(solve(start, ancillaryGuess(file, temperature(start))));
  for (let x = start; x < far;) {
    x = Math.min(x + spacing, far);
    solved.push(solve(x, guessAt(x, lastFew(solved.length))));
    xs.push(x);
  }
  const floor = analytic ? nearest : nearestNonAnalytic;
  for (let x = start; x > floor;) {
    x = Math.max(x - spacing, x * share, floor);
    solved.unshift(solve(x, guessAt(x, firstFew(solved.length))));
    xs.unshift(x);
  }

  const direct: SaturationCurve = (x) => {
    const point = solve(x, guessAt(x, neighbours(xs, x)));
    return { lnP: Math.log(point.p), rhoL: point.rhoL, lnRhoV: Math.log(point.rhoV) };
  };
  const inner = analytic ? coreEdge : floor;
  const blend = analytic ? smoothCore(direct, inner) : heldCore(critical, direct, floor);
  return (x) => (x < inner ? blend(x) : direct(x));
}

/** Interpolates across the critical point from solutions on both sides of it. */
function smoothCore(direct: SaturationCurve, inner: number): SaturationCurve {
  const places = [0.4, 0.55, 0.7, 0.85, 1, 1.15].map((part) => part * inner);
  const points = places.map(direct);
  const all = [...places.map((x) => -x).reverse(), ...places];
  const densities = [
    ...points.map((point) => Math.exp(point.lnRhoV)).reverse(),
    ...points.map((point) => point.rhoL),
  ];
  const pressures = [...points.map((point) => point.lnP).reverse(), ...points.map((p) => p.lnP)];
  const indices = all.map((_, k) => k);
  return (x) => ({
    lnP: interpolate(indices, x, (k) => pressures[k], all),
    rhoL: interpolate(indices, x, (k) => densities[k], all),
    lnRhoV: Math.log(interpolate(indices, -x, (k) => densities[k], all)),
  });
}

/** Straight lines in x to the listed critical point. */
function heldCore(
  critical: CriticalPoint,
  direct: SaturationCurve,
  floor: number,
): SaturationCurve {
  const edge = direct(floor);
  return (x) => {
    const part = x / floor;
    return {
      lnP: Math.log(critical.p) + part * part * (edge.lnP - Math.log(critical.p)),
      rhoL: critical.rho + part * (edge.rhoL - critical.rho),
      lnRhoV: Math.log(critical.rho + part * (Math.exp(edge.lnRhoV) - critical.rho)),
    };
  };
}

function ancillaryGuess(file: FluidFile, T: number): { rhoL: number; rhoV: number } {
  const { rhoLsat, rhoVsat } = file.ancillaries;
  return { rhoL: ancillary(rhoLsat, T), rhoV: ancillary(rhoVsat, T) };
}

function ancillary({ type, n, t, Tred, reducingValue }: Ancillary, T: number): number {
  const theta = 1 - T / Tred;
  const sum = n.reduce((total, factor, k) => total + factor * theta ** t[k], 0);
  if (type === "oneplus") return reducingValue * (1 + sum);
  return reducingValue * Math.exp(type === "exp_tau" ? (sum * Tred) / T : sum);
}

/** Lagrange's polynomial through the named points. */
function interpolate(
  points: readonly number[],
  x: number,
  value: (k: number) => number,
  xs: readonly number[],
): number {
  let sum = 0;
  for (const k of points) {
    let weight = 1;
    for (const other of points) if (other !== k) weight *= (x - xs[other]) / (xs[k] - xs[other]);
    sum += weight * value(k);
  }
  return sum;
}

function lastFew(count: number): number[] {
  const few = Math.min(3, count);
  return Array.from({ length: few }, (_, k) => count - few + k);
}

function firstFew(count: number): number[] {
  return Array.from({ length: Math.min(3, count) }, (_, k) => k);
}

function neighbours(xs: readonly number[], x: number): number[] {
  const above = xs.findIndex((place) => place >= x);
  const first = Math.max(0, Math.min(xs.length - 4, (above < 0 ? xs.length : above) - 2));
  return [0, 1, 2, 3].map((k) => first + k);
}
