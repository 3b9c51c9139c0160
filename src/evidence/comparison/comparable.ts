import type { Composition, Conditions, ParameterName, Vehicle } from "../../vehicle/index.ts";

/** What is compared. Vent in K, pressures in Pa absolute. */
export const comparedQuantities = ["vent", "low", "high"] as const;
export type ComparedQuantity = (typeof comparedQuantities)[number];

/** A settled value, or one end of a cycling clutch's swing. */
export type ComparedForm = "steady" | "lowest" | "highest";

export interface ComparableReading {
  readonly quantity: ComparedQuantity;
  readonly form: ComparedForm;
  readonly value: number;
  /** Standard uncertainty of settling and scatter. */
  readonly uRepeatability: number;
  /** From the class of the instrument, common to all its readings. */
  readonly uInstrument: number;
  /** Readings with the same name here share their instrument's error. */
  readonly instrument: string;
}

/** A parked vehicle's speed may read a little more than nothing, m/s. */
const DRIVING = 3;

export const isDriving = ({ conditions }: { readonly conditions: Conditions }): boolean =>
  conditions.speed > DRIVING;

/** Standard uncertainties of a run's conditions, SI; half of each variance is taken as common to all runs. */
export interface ConditionUncertainty {
  readonly ambient: number;
  readonly humidity: number;
  readonly speed: number;
  readonly engineSpeed: number;
  /** Of measured return air. */
  readonly returnT: number;
  readonly returnHumidity: number;
  /** Of the share of the pull-down, where return air was not measured. */
  readonly pullDown: number;
}

/** Where a run stands in A–B–A: the label refrigerant before or after, or a product. */
export type Charged = "before" | "after" | { readonly product: string };

export interface ComparableRun {
  readonly id: string;
  /** Runs of one kind are compared with each other: parked at idle, on the road … */
  readonly kind: string;
  readonly charged: Charged;
  /** Any number that grows with time. */
  readonly moment: number;
  readonly conditions: Conditions;
  readonly u: ConditionUncertainty;
  /** kg of label refrigerant: what is in it for a run of it, the label charge for the run of a product. */
  readonly charge: number;
  readonly readings: readonly ComparableReading[];
}

/** Smallest differences that matter, fixed before the data. */
export type Margins = Readonly<Record<ComparedQuantity, number>>;

export interface ComparisonInput {
  readonly vehicle: Vehicle;
  /** Parameters that are known: they carry no range. */
  readonly known: readonly ParameterName[];
  /** The label refrigerant. */
  readonly label: Composition;
  readonly runs: readonly ComparableRun[];
  readonly margins: Margins;
}

/** One reading of one run, in the order of runs and readings. */
export interface Observation extends ComparableReading {
  readonly run: number;
}

export const observationsOf = (runs: readonly ComparableRun[]): Observation[] =>
  runs.flatMap(({ readings }, run) => readings.map((reading) => ({ ...reading, run })));

export const isLabel = ({ charged }: ComparableRun): boolean => typeof charged === "string";

export const productOf = ({ charged }: ComparableRun): string | undefined =>
  typeof charged === "string" ? undefined : charged.product;
