import type { Shown } from "../shown.ts";
import type { MassShare } from "./composition.ts";

/** One moment of the emptying. */
export interface WithdrawalStep {
  /** Mass that is left, kg. */
  readonly mass: number;
  /** Pa absolute. */
  readonly p: number;
  /** What is left in the vessel, by mass. */
  readonly left: readonly MassShare[];
  /** What comes out at this moment, by mass; absent when nothing more comes. */
  readonly out?: readonly MassShare[];
}

/** One way of emptying the vessel. */
export interface Withdrawal {
  readonly from: "top" | "bottom";
  readonly steps: readonly WithdrawalStep[];
}

export interface WithdrawalChartProps {
  /** Unique on the page. */
  readonly id: string;
  readonly title: string;
  readonly shownP: Shown;
  readonly shownMass: Shown;
  readonly ways: readonly Withdrawal[];
  readonly width: number;
  readonly height?: number;
}
