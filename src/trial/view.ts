import type { Accuracy, BodyOf, ReadingForm, ReadingQuantity, Stage, Substance } from "./events.ts";
import type { Quantity } from "../units/index.ts";
import type { Measured } from "./measured.ts";
import type { Ledger } from "./ledger/view.ts";
import type { StageView } from "./stages/view.ts";
import type { SettleWindow, TraceView } from "./traces/view.ts";
import type { Entry, Refused } from "./entry-view.ts";

export type {
  CorrectionView,
  Entry,
  EntryOf,
  EntryType,
  Issue,
  Refused,
  StoredEvent,
  WithdrawalView,
} from "./entry-view.ts";

/**
 * What `project` makes of a log: one value that screens and reports read. SI inside (Pa absolute, K,
 * kg, m3, fractions 0..1, m/s, rev/s); `u` is always a standard uncertainty.
 */

/** Pressure of the air at the place of the trial, Pa. */
export interface Atmosphere extends Measured {
  readonly from: "barometer" | "altitude" | "assumed";
  /** The entry that gave it, when there is one. */
  readonly entry?: string;
  /** The barometer looks like a forecast's figure for sea level. */
  readonly doubt?: "sea-level-figure";
}

export interface OpenedPlan {
  readonly entry: string;
  readonly title: string;
  readonly question: string;
  readonly place?: string;
  /** m */
  readonly altitude?: number;
  /** Smallest vent-temperature difference that matters, K. */
  readonly margin?: number;
  readonly conditions?: string;
  readonly demonstration: boolean;
}

export interface VehicleView {
  readonly entry: string;
  readonly name: string;
  readonly labelRefrigerant: string;
  /** kg, as typed and in SI; what is really inside is a declaration until it is weighed. */
  readonly labelCharge: number;
  readonly labelChargeTyped: Quantity;
  readonly meteringDevice: BodyOf<"vehicle-described">["meteringDevice"];
  readonly compressor: BodyOf<"vehicle-described">["compressor"];
  /** Kind of system and parameters that forecasts use instead of what the description suggests. */
  readonly model?: NonNullable<BodyOf<"vehicle-described">["model"]>;
  readonly oil?: string;
  /** m3 */
  readonly cabinVolume?: number;
  /** m3, of the refrigerant circuit. */
  readonly internalVolume?: number;
}

export interface InstrumentView {
  readonly id: string;
  readonly name: string;
  readonly measures: BodyOf<"instrument-listed">["measures"];
  readonly accuracy: Accuracy;
  readonly resolution?: Quantity;
}

export interface ProductView {
  readonly id: string;
  readonly name: string;
  readonly fluid?: string;
  readonly declares?: string;
  /** kg */
  readonly labelMass?: number;
  readonly labelMassTyped?: Quantity;
  readonly claims: readonly string[];
  readonly price?: string;
  readonly fitting?: string;
  readonly flammableMark: boolean;
}

export interface VesselView {
  readonly id: string;
  readonly name: string;
  readonly kind: BodyOf<"vessel-listed">["kind"];
  /** kg */
  readonly tare?: number;
  /** m3, from a volume or from a mass of water at 1000 kg/m3. */
  readonly waterCapacity?: number;
  /** Pa absolute */
  readonly ratedPressure?: number;
  readonly flammableRated?: boolean;
  /** Last day on which it may be filled, as YYYY-MM-DD. */
  readonly retestBy?: string;
  /** kg; absent when the vessel was listed empty. */
  readonly holds?: {
    readonly substance: Substance;
    readonly mass: number;
    readonly basis: "weighed" | "declared";
    readonly instrument?: string;
  };
}

export interface ReadingView {
  readonly id: string;
  readonly quantity: ReadingQuantity;
  readonly form: ReadingForm;
  readonly typed: Quantity;
  /** SI; a gauge pressure already has the trial's atmosphere added. */
  readonly value: number;
  /** Standard uncertainty of the instrument, SI; absent when none was named. */
  readonly u?: number;
  readonly instrument?: string;
  readonly stage: Stage;
  readonly round?: string;
  readonly run?: string;
  readonly vessel?: string;
  readonly place?: string;
  readonly note?: string;
  readonly when: string;
}

export type RunValueSource =
  | {
      readonly kind: "trace";
      readonly trace: string;
      readonly column: string;
      /** The tail that gave the figure, s from the trace's start. */
      readonly window: SettleWindow;
    }
  | { readonly kind: "readings"; readonly readings: readonly string[] };

/** One figure of a run that a comparison may use. */
export interface RunValue {
  readonly quantity: ReadingQuantity;
  readonly form: ReadingForm;
  /** SI */
  readonly value: number;
  /** Combined: scatter of the reading and limit of the instrument. */
  readonly u: number;
  /** Scatter alone, with its autocorrelation and what drift remains. */
  readonly uRepeatability: number;
  /** From the instrument's class; absent when no instrument was named. */
  readonly uInstrument?: number;
  readonly instrument?: string;
  /** `typed` was judged by the person; the others by the trace. */
  readonly standing: "typed" | "settled" | "still-moving" | "cycling";
  readonly source: RunValueSource;
}

export interface RunView {
  readonly id: string;
  readonly name: string;
  readonly stage: Stage;
  readonly round?: string;
  readonly when: string;
  readonly condition: BodyOf<"run-recorded">["condition"];
  readonly airSource: BodyOf<"run-recorded">["airSource"];
  readonly blower: BodyOf<"run-recorded">["blower"];
  readonly charged: Substance;
  readonly trace?: string;
  readonly from?: string;
  readonly to?: string;
  readonly note?: string;
  readonly values: readonly RunValue[];
  /** Quantities whose tail was too short or too broken to say anything. */
  readonly unusable: readonly { readonly quantity: ReadingQuantity; readonly reason: string }[];
}

/** Difference of one quantity between two runs, as measured. */
export interface DifferenceRow {
  readonly quantity: ReadingQuantity;
  readonly form: ReadingForm;
  readonly condition: RunView["condition"];
  readonly baseline: Measured;
  readonly other: Measured;
  /** other − baseline. One instrument for both: its class cancels and only scatter is in `u`. */
  readonly difference: Measured;
  readonly instrument: "shared" | "different" | "not-named";
  readonly baselineRuns: readonly string[];
  readonly otherRuns: readonly string[];
}

/** One product against the label refrigerant in one condition. */
export interface Comparison {
  readonly product: string;
  readonly condition: RunView["condition"];
  readonly rows: readonly DifferenceRow[];
  /** Air, humidity and speed differences between the same runs: conditions were not equal. */
  readonly conditions: readonly DifferenceRow[];
  /** Conditions that move the results most and were not measured on both sides. */
  readonly unmeasured: readonly ReadingQuantity[];
}

export interface NoteView {
  readonly id: string;
  readonly stage: Stage;
  readonly round?: string;
  readonly when: string;
  readonly text: string;
}

export interface ConfirmationView {
  readonly id: string;
  readonly stage: Stage;
  readonly round?: string;
  readonly item: string;
  readonly confirmed: boolean;
  readonly when: string;
}

export interface TrialView {
  /** Undefined for an empty log. */
  readonly trial?: string;
  readonly opened?: OpenedPlan;
  readonly vehicle?: VehicleView;
  readonly atmosphere: Atmosphere;
  readonly instruments: readonly InstrumentView[];
  readonly products: readonly ProductView[];
  readonly vessels: readonly VesselView[];
  readonly readings: readonly ReadingView[];
  readonly runs: readonly RunView[];
  readonly traces: readonly TraceView[];
  readonly notes: readonly NoteView[];
  readonly confirmations: readonly ConfirmationView[];
  /** Every statement in order of (when, id), withdrawn ones included. */
  readonly entries: readonly Entry[];
  readonly refused: readonly Refused[];
  readonly ledger: Ledger;
  readonly stages: readonly StageView[];
  readonly comparisons: readonly Comparison[];
  /** Label refrigerant after (Restore) minus before (Prove): the vehicle's own drift. */
  readonly drift: readonly DifferenceRow[];
}
