import type { Measured } from "../../trial/index.ts";
import type { Shown } from "../shown.ts";
import type { LinePoint } from "./phase-points.ts";

/** Where one fluid boils, and where it condenses if that is elsewhere. */
export interface SaturationLine {
  readonly name: string;
  /** From cold to hot. */
  readonly bubble: readonly LinePoint[];
  /** Absent for a pure fluid: it boils and condenses on one line. */
  readonly dew?: readonly LinePoint[];
}

/** A pressure and a temperature read together. */
export interface PairReading {
  readonly name: string;
  readonly T: Measured;
  readonly p: Measured;
}

export interface PressureTemperatureProps {
  /** Unique on the page. */
  readonly id: string;
  readonly title: string;
  readonly shownT: Shown;
  readonly shownP: Shown;
  readonly lines: readonly SaturationLine[];
  readonly readings: readonly PairReading[];
  readonly width: number;
  /** Chosen from the width unless told. */
  readonly height?: number;
}
