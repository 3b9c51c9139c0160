import type { ComparedForm, ComparedQuantity } from "./comparable.ts";
import type { LumpName } from "./lumps.ts";
import type { FairVerdict, Interval } from "./verdict.ts";

/** A value with its standard uncertainty. */
export interface Estimate {
  readonly value: number;
  readonly u: number;
}

/** One product against the label refrigerant in one kind of run. K and Pa. */
export interface EqualRow {
  readonly product: string;
  readonly kind: string;
  readonly quantity: ComparedQuantity;
  readonly form: ComparedForm;
  /** Product minus label refrigerant, as read. */
  readonly asMeasured: Estimate;
  /** The same in the conditions of the product's runs. */
  readonly equalConditions: Estimate;
  /** 95 % of it. */
  readonly interval: Interval;
  readonly margin: number;
  readonly verdict: FairVerdict;
  /** Smallest difference that a trial like this one finds in four of five cases. */
  readonly smallestDetectable: number;
  /** Shares of the standard uncertainty: what the model leaves out, and drift of the vehicle. */
  readonly discrepancy: number;
  readonly drift: number;
  readonly baselineRuns: number;
  readonly productRuns: number;
}

/** Label refrigerant after minus before, in equal conditions. */
export interface DriftRow {
  readonly kind: string;
  readonly quantity: ComparedQuantity;
  readonly form: ComparedForm;
  readonly drift: Estimate;
  readonly interval: Interval;
}

/** A product's effect in standard conditions. */
export interface StandardRow {
  readonly product: string;
  readonly quantity: ComparedQuantity;
  readonly ambient: number;
  readonly humidity: number;
  readonly driving: boolean;
  /** What the label refrigerant should read there. */
  readonly label: Estimate;
  readonly effect: Estimate;
  readonly interval: Interval;
  readonly verdict: FairVerdict;
}

export interface LumpRow {
  readonly name: LumpName;
  readonly what: string;
  readonly unit: "Pa" | "1" | "K";
  readonly form: "shift" | "factor";
  /** Shift 0, factor 1, and the 95 % of both. */
  readonly prior: Estimate;
  readonly posterior: Estimate;
}

export interface CalibrationSummary {
  readonly lumps: readonly LumpRow[];
  /** Readings of the label refrigerant that were fitted, and the sum of their squared residuals. */
  readonly readings: number;
  readonly chiSquare: number;
  readonly settled: boolean;
}

export interface EqualConditions {
  readonly kind: "compared";
  readonly rows: readonly EqualRow[];
  /** Of each row the share of its posterior below a difference: for checks of the method. */
  readonly below: readonly ((difference: number) => number)[];
  readonly standard: readonly StandardRow[];
  readonly drift: readonly DriftRow[];
  readonly calibration: CalibrationSummary;
  /** To how many equally likely vehicles the weighed ones amount. */
  readonly effectiveDraws: number;
  /** Share of draws, and runs, in which the model found no steady state. */
  readonly lostDraws: number;
  readonly lostRuns: readonly string[];
}

export type ComparisonOutcome =
  | EqualConditions
  | {
      readonly kind: "none";
      readonly reason: "no-baseline" | "no-product" | "model-does-not-run" | "stopped";
    };
