import {
  chebyshevFit,
  chebyshevNodes,
  evaluateAt,
  intervalOf,
  type PiecewiseChebyshev,
} from "../numerics/index.ts";
import type { CriticalPoint } from "./critical-point.ts";
import type { Equation } from "./equation.ts";
import type { IdealModel } from "./ideal.ts";
import { evaluateProperties, H, S } from "./properties.ts";
import type { StateWork } from "./state-work.ts";

/** Saturation as expansions in x = √(1 − T/Tc) and, for T, in ln p. */
export interface SaturationModel {
  readonly critical: CriticalPoint;
  /** Tables: ln p, ρL, ln ρV. */
  readonly states: PiecewiseChebyshev;
  /** Table: T. */
  readonly temperature: PiecewiseChebyshev;
  /** hL, hV, J/mol, and sL, sV, J/(mol K), on the intervals of `states`. */
  readonly hL: Float64Array;
  readonly hV: Float64Array;
  readonly sL: Float64Array;
  readonly sV: Float64Array;
  /** Saturated-liquid temperature against enthalpy and entropy: starting values only. */
  readonly liquidByH: LiquidTable;
  readonly liquidByS: LiquidTable;
}

/** T, K, at equal steps of a caloric property of the saturated liquid. */
export interface LiquidTable {
  readonly from: number;
  readonly step: number;
  readonly T: Float64Array;
}

type Curve = Pick<SaturationModel, "states" | "critical">;

/** x of a temperature; 0 at and above the critical one. */
export function xAt({ critical }: Pick<SaturationModel, "critical">, T: number): number {
  return T < critical.T ? Math.sqrt((critical.T - T) / critical.T) : 0;
}

/** Saturation pressure, Pa, at x. */
export function pressureAt({ states }: Curve, x: number): number {
  return Math.exp(evaluateAt(states, states.tables[0], intervalOf(states.breaks, x), x));
}

/** Coexisting densities, mol/m³, at x. */
export function densitiesAt({ states }: Curve, x: number): { rhoL: number; rhoV: number } {
  const place = intervalOf(states.breaks, x);
  return {
    rhoL: evaluateAt(states, states.tables[1], place, x),
    rhoV: Math.exp(evaluateAt(states, states.tables[2], place, x)),
  };
}

/** Saturation temperature, K, at ln(p/Pa). */
export function temperatureAt({ temperature }: SaturationModel, lnP: number): number {
  const place = intervalOf(temperature.breaks, lnP);
  return evaluateAt(temperature, temperature.tables[0], place, lnP);
}

/** Expands enthalpy and entropy of both phases on the intervals of the densities. */
export function caloricExpansions(
  fluid: Equation & {
    readonly ideal: IdealModel;
    readonly saturation: Curve;
    readonly work: StateWork;
  },
): Pick<SaturationModel, "hL" | "hV" | "sL" | "sV" | "liquidByH" | "liquidByS"> {
  const { saturation, work } = fluid;
  const { breaks, count } = saturation.states;
  const size = (breaks.length - 1) * count;
  const tables = [0, 1, 2, 3].map(() => new Float64Array(size));
  const places = [H, S];
  for (let k = 0; k < breaks.length - 1; k++) {
    const nodes = chebyshevNodes(count - 1, breaks[k], breaks[k + 1]);
    const values = tables.map(() => new Float64Array(count));
    for (let j = 0; j < count; j++) {
      const T = saturation.critical.T * (1 - nodes[j] * nodes[j]);
      const { rhoL, rhoV } = nodeDensities(saturation, k, nodes[j]);
      for (const [phase, rho] of [rhoL, rhoV].entries()) {
        evaluateProperties(fluid, T, rho, work);
        for (const [which, place] of places.entries()) {
          values[2 * which + phase][j] = work.out[place];
        }
      }
    }
    for (const [which, column] of values.entries()) {
      tables[which].set(chebyshevFit(column), k * count);
    }
  }
  const [hL, hV, sL, sV] = tables;
  const { states, critical } = saturation;
  return {
    hL,
    hV,
    sL,
    sV,
    liquidByH: liquidTable(states, critical, hL),
    liquidByS: liquidTable(states, critical, sL),
  };
}

/** At the node shared by two intervals the own interval's expansion is wanted. */
function nodeDensities(
  { states }: Curve,
  place: number,
  x: number,
): { rhoL: number; rhoV: number } {
  return {
    rhoL: evaluateAt(states, states.tables[1], place, x),
    rhoV: Math.exp(evaluateAt(states, states.tables[2], place, x)),
  };
}

const tableSize = 64;

function liquidTable(
  states: PiecewiseChebyshev,
  critical: CriticalPoint,
  table: Float64Array,
): LiquidTable {
  const { breaks } = states;
  const far = breaks[breaks.length - 1];
  const value = (x: number): number => evaluateAt(states, table, intervalOf(breaks, x), x);
  const from = value(far);
  const step = (value(0) - from) / tableSize;
  const T = new Float64Array(tableSize + 1);
  const fine = 8 * tableSize;
  let k = 0;
  // The liquid's properties rise from the far end of x to the critical point at 0.
  for (let j = 0; j <= fine; j++) {
    const x = far * (1 - j / fine);
    const here = value(x);
    while (k <= tableSize && here >= from + k * step) T[k++] = critical.T * (1 - x * x);
  }
  while (k <= tableSize) T[k++] = critical.T;
  return { from, step, T };
}

/** Saturated-liquid temperature at a value of the table's property, held at its ends. */
export function lookUpLiquid({ from, step, T }: LiquidTable, value: number): number {
  const place = (value - from) / step;
  if (place <= 0) return T[0];
  const last = T.length - 1;
  if (place >= last) return T[last];
  const k = Math.floor(place);
  return T[k] + (place - k) * (T[k + 1] - T[k]);
}
