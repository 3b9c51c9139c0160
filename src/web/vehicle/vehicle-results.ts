import type { Answer } from "../../calculations/index.ts";

/** What `vehicle` and `sweep` answer, as far as this page shows it. SI, absolute. */

export interface Span {
  readonly from: number;
  readonly to: number;
}

export const readingNames = [
  "low",
  "high",
  "vent",
  "capacity",
  "power",
  "cop",
  "discharge",
  "superheat",
  "subcooling",
  "duty",
] as const;
export type ReadingName = (typeof readingNames)[number];
export type Regime = "balanced" | "starved" | "flooded" | "gas";

export interface Readings extends Readonly<Record<ReadingName, number>> {
  readonly lowRange?: Span;
  readonly highOn?: number;
  readonly regime: Regime;
}

export type ChargePart =
  | "condenser"
  | "evaporator"
  | "liquidLine"
  | "dischargeLine"
  | "suctionLine"
  | "bufferVapour"
  | "bufferLiquid";

export interface CyclePoint {
  readonly at: string;
  readonly T: number;
  readonly p: number;
  readonly h: number;
}

export interface Note {
  readonly code: string;
  readonly text: string;
}

/** A steady state. */
export interface Running extends Readings {
  readonly state: "running";
  readonly charge: Readonly<Record<ChargePart, number>>;
  readonly cycle: readonly CyclePoint[];
  readonly band?: Readonly<Partial<Record<ReadingName | "highOn", Span>>>;
  readonly notes: readonly Note[];
}

/** No steady running, and why. */
export interface Standing {
  readonly state: "stopped" | "unresolved";
  readonly message: string;
  /** Pa, of a system that stops. */
  readonly resting?: number;
}

export type VehicleRun = Running | Standing;

export type SweepPlace = { readonly at: number } & (
  (Readings & { readonly state: "running" }) | Standing
);

export interface Sweep {
  readonly points: readonly SweepPlace[];
}

// The calculations' own schemas are tested to be what their results are.

export const runOf = (answer: Answer | undefined): VehicleRun | undefined =>
  answer?.kind === "answer" ? (answer.result as VehicleRun) : undefined;

export const sweepOf = (answer: Answer | undefined): Sweep | undefined =>
  answer?.kind === "answer" ? (answer.result as Sweep) : undefined;
