import type { CriticalPoint } from "./critical-point.ts";
import type { Equation } from "./equation.ts";
import type { FluidId } from "./fluid-id.ts";
import type { IdealModel } from "./ideal.ts";
import type { SaturationModel } from "./saturation-model.ts";
import type { StateWork } from "./state-work.ts";

/** What a reader wants to know about a fluid. K, Pa, mol/m³, kg/mol, J/(mol K). */
export interface FluidInfo {
  readonly id: FluidId;
  readonly name: string;
  readonly ashrae: string;
  readonly M: number;
  readonly R: number;
  /** Critical constants as listed by the authors; the equation's own are `PureFluid.critical`. */
  readonly Tc: number;
  readonly pc: number;
  readonly rhoc: number;
  readonly acentric: number;
  readonly Tmin: number;
  readonly Tmax: number;
  readonly pmax: number;
  readonly source: string;
}

/**
 * Caloric properties on isobars from the critical pressure to the limit: starting values only.
 * Row j holds `columns` states at ln p = lnPFrom + j·lnPStep, temperatures ascending.
 */
export interface SupercriticalGuide {
  readonly lnPFrom: number;
  readonly lnPStep: number;
  readonly rows: number;
  readonly columns: number;
  readonly T: Float64Array;
  readonly h: Float64Array;
  readonly s: Float64Array;
  readonly rho: Float64Array;
}

/** A pure fluid, ready to compute. Molar basis. */
export interface PureFluid extends Equation {
  readonly info: FluidInfo;
  readonly ideal: IdealModel;
  /** Critical point of the equation itself: where saturation ends. */
  readonly critical: CriticalPoint;
  readonly saturation: SaturationModel;
  /** Starting values above the critical pressure; built when first asked for. */
  readonly supercritical: () => SupercriticalGuide;
  /**
   * Scratch of the convenient functions. No call leaves anything in it that another one reads, and
   * a fluid is never shared between threads; hot loops may own theirs (`createStateWork`).
   */
  readonly work: StateWork;
}
