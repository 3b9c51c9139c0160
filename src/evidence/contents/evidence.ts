import type { FluidId } from "../../fluids/index.ts";
import type { Vehicle } from "../../vehicle/index.ts";
import type { ReadRun } from "../faults/index.ts";

/**
 * What shop tools can say about the contents of a can or a vehicle at rest. SI: K, Pa absolute, kg, m³; `u` are
 * standard uncertainties. Readings that name the same gauge or thermometer share most of its error.
 */
export type Evidence =
  | PressureEvidence
  | BoilingEvidence
  | FillEvidence
  | LiquidDensityEvidence
  | IdentifierEvidence
  | DetectorEvidence
  | RunningEvidence
  | LabelEvidence;

/** Pressure at rest with liquid inside, at one temperature throughout. */
export interface PressureEvidence {
  readonly kind: "pressure";
  readonly p: number;
  readonly u: number;
  readonly T: number;
  readonly uT: number;
  /** What was read; a `fill` of the same name tells how full it is. */
  readonly vessel: "can" | "vehicle";
  readonly gauge?: string;
  readonly thermometer?: string;
}

/** Temperature at which the liquid boils under a known pressure. */
export interface BoilingEvidence {
  readonly kind: "boiling";
  readonly T: number;
  readonly uT: number;
  readonly p: number;
  readonly u: number;
  readonly thermometer?: string;
}

/** Mass in a known volume. */
export interface FillEvidence {
  readonly kind: "fill";
  readonly vessel: "can" | "vehicle";
  readonly mass: number;
  readonly uMass: number;
  readonly volume: number;
  readonly uVolume: number;
  /** As the filler left it: then the density of the liquid follows from the usual share of liquid. */
  readonly full: boolean;
}

export interface LiquidDensityEvidence {
  readonly kind: "liquid-density";
  readonly rho: number;
  readonly u: number;
  readonly T: number;
}

/** An identifier's shares by mass. */
export interface IdentifierEvidence {
  readonly kind: "identifier";
  readonly parts: readonly {
    readonly substance: FluidId | "hydrocarbons" | "air";
    readonly fraction: number;
  }[];
  /** Standard uncertainty of a share that it can tell; default 0.02. */
  readonly u?: number;
}

/** A detector's yes or no on a trace of vapour. */
export interface DetectorEvidence {
  readonly kind: "detector";
  readonly detects: "combustible" | "halogen";
  readonly responded: boolean;
  /** How often it answers yes to nothing, and no to what it is made for; default 0.03 each. */
  readonly falseYes?: number;
  readonly falseNo?: number;
}

/**
 * A vehicle that ran on a weighed charge of the content. Only the vehicle's model tells what a content would have
 * read there, so it weighs little and never gives a name: docs/decisions/0006.
 */
export interface RunningEvidence {
  readonly kind: "running";
  /** As it is known; its label charge is that of the label refrigerant. */
  readonly vehicle: Vehicle;
  /** What it was made for: a pure fluid or a named blend. */
  readonly label: string;
  /** Of the content, kg. */
  readonly charge: number;
  readonly uCharge: number;
  /** On the content; of their readings low side, high side and vent count. */
  readonly runs: readonly ReadRun[];
  /** On the label refrigerant and charge, while the vehicle was sound: they calibrate its lumps. */
  readonly baseline: readonly ReadRun[];
}

/** What the label or the data sheet says: it moves the prior, no more. */
export interface LabelEvidence {
  readonly kind: "label";
  /** Id of a family. */
  readonly declares: string;
  /** Probability that the label is true before any reading. */
  readonly trust?: number;
}
