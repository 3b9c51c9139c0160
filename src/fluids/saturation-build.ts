import {
  evaluateAt,
  fitPiecewise,
  findRoot,
  intervalOf,
  type PiecewiseChebyshev,
} from "../numerics/index.ts";
import { solveCriticalPoint, type CriticalPoint } from "./critical-point.ts";
import { compileEquation, createWork } from "./equation.ts";
import type { FluidFile } from "./fluid-file.ts";
import { saturationGuide, type SaturationCurve } from "./saturation-guide.ts";

/** Expansions of the saturation curve, and how well they meet the equation. */
export interface BuiltSaturation {
  readonly critical: CriticalPoint;
  /** ln(p/Pa), ρL/(mol/m³), ln(ρV/(mol/m³)) as functions of x = √(1 − T/Tc). */
  readonly states: PiecewiseChebyshev;
  /** T/K as a function of ln(p/Pa). */
  readonly temperature: PiecewiseChebyshev;
  /** Largest differences from the solution of the equation up to 0.999 Tc, and nearer to Tc. */
  readonly differences: SaturationDifferences;
  readonly nearCritical: SaturationDifferences;
}

/** Relative differences between expansions and solutions. */
export interface SaturationDifferences {
  readonly p: number;
  readonly rhoL: number;
  readonly rhoV: number;
  readonly T: number;
}

/** Twelve is the degree of the published superancillaries; it also suits x. */
const degree = 12;
/** A little above the rounding of a good equation; see `noiseOf` for the others. */
const smallestTolerance = 1e-13;
const narrowest = 0.002;
/** Rounding of coexisting densities grows as x⁻³ towards the critical point, from this. */
const criticalNoise = 1e-16;

/**
 * Builds the saturation expansions of a fluid from nothing but its equation of state.
 *
 * In x = √(1 − T/Tc) coexisting densities are smooth up to the critical point, where they have a
 * branch point in T; few intervals suffice.
 *
 * Source: Bell and Alpert, Int. J. Thermophys. 42 (2021) 75 (expansions of saturation built from the
 * equation of state); the variable x is this project's choice.
 */
export function buildSaturation(file: FluidFile): BuiltSaturation {
  const equation = compileEquation(file);
  const work = createWork(equation);
  const critical = solveCriticalPoint(file, equation, work);
  const curve = saturationGuide(file, equation, critical, work);
  const far = Math.sqrt((critical.T - file.validity.Tmin) / critical.T);
  const states = fitPiecewise(
    (x) => {
      const { lnP, rhoL, lnRhoV } = curve(x);
      return [lnP, rhoL, lnRhoV];
    },
    [0, far],
    {
      degree,
      narrowest,
      tolerances: (x) => {
        const accepted = Math.max(smallestTolerance, 2 * noiseOf(curve, x), criticalNoise / x ** 3);
        return [accepted, accepted * critical.rho, accepted];
      },
    },
  );
  const lnP = (x: number): number => {
    return evaluateAt(states, states.tables[0], intervalOf(states.breaks, x), x);
  };
  const temperature = fitPiecewise(
    (y) => [critical.T * (1 - xAt(y, lnP, far) ** 2)],
    [lnP(far), lnP(0)],
    { degree, narrowest: 0.002, tolerances: () => [smallestTolerance * critical.T] },
  );
  const built = { critical, states, temperature };
  const edge = Math.sqrt(0.001);
  return {
    ...built,
    differences: differencesWithin(built, curve, edge, far),
    nearCritical: differencesWithin(built, curve, 0, edge),
  };
}

/** Worst of some hundreds of places in x between two ends. */
function differencesWithin(
  built: Pick<BuiltSaturation, "critical" | "states" | "temperature">,
  curve: SaturationCurve,
  from: number,
  to: number,
): SaturationDifferences {
  const { critical, states, temperature } = built;
  const worst = { p: 0, rhoL: 0, rhoV: 0, T: 0 };
  const count = 997;
  for (let k = 0; k <= count; k++) {
    const x = from + ((to - from) * k) / count;
    const exact = curve(x);
    const place = intervalOf(states.breaks, x);
    const [lnP, rhoL, lnRhoV] = states.tables.map((table) => evaluateAt(states, table, place, x));
    const y = intervalOf(temperature.breaks, exact.lnP);
    const T = evaluateAt(temperature, temperature.tables[0], y, exact.lnP);
    worst.p = Math.max(worst.p, Math.abs(lnP - exact.lnP));
    worst.rhoL = Math.max(worst.rhoL, Math.abs(rhoL / exact.rhoL - 1));
    worst.rhoV = Math.max(worst.rhoV, Math.abs(lnRhoV - exact.lnRhoV));
    worst.T = Math.max(worst.T, Math.abs(T / (critical.T * (1 - x * x)) - 1));
  }
  return worst;
}

/**
 * Rounding of the solved curve about x, from its differences over a step in which it is straight.
 * Equations with large cancelling terms are rougher than an expansion should try to follow.
 */
function noiseOf(curve: SaturationCurve, x: number): number {
  const step = 1e-8;
  let largest = 0;
  for (let k = 0; k < 20; k++) {
    const [low, middle, high] = [k - 1, k, k + 1].map((j) => curve(x + j * step));
    const bendL = (low.rhoL - 2 * middle.rhoL + high.rhoL) / middle.rhoL;
    const bendV = low.lnRhoV - 2 * middle.lnRhoV + high.lnRhoV;
    largest = Math.max(largest, Math.abs(bendL), Math.abs(bendV));
  }
  return largest;
}

/** The x at which ln p has a value. */
function xAt(y: number, lnP: (x: number) => number, far: number): number {
  if (y >= lnP(0)) return 0;
  if (y <= lnP(far)) return far;
  const root = findRoot((x) => lnP(x) - y, 0, far);
  if (root.kind === "failed") throw new Error(`no saturation at ln p = ${y}: ${root.reason}`);
  return root.x;
}
