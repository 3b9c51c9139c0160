import type { Answer } from "../../calculations/index.ts";

/** One way of mixing, as `cabin-leak` answers. kg/m3, min, kg. */
export interface LeakZone {
  readonly peak: number;
  readonly peakVolumePercent: number;
  readonly overLFL: number | null;
  readonly minutesAboveLFL: number | null;
  readonly minutesAboveQuarterLFL: number | null;
  readonly clears: boolean | null;
  readonly safeMass: number | null;
  readonly oxygenPercent: number;
}

/** `cabin-leak`. */
export type LeakFound = LeakZone & {
  readonly name: string;
  readonly lfl: number | null;
  readonly burns: "yes" | "no" | "treat-as-burning" | "unknown";
  readonly series: readonly { readonly t: number; readonly concentration: number }[];
  readonly breathing: readonly {
    readonly what: "RCL" | "ATEL" | "oxygen-deprivation";
    readonly volumePercent: number;
    readonly ratio: number;
  }[];
  readonly safeToBreathe: number | null;
  readonly lasts: number;
  readonly rate: number | null;
  readonly overAir: number;
  readonly co2Equivalent: readonly { readonly edition: string; readonly mass: number | null }[];
};

/** The result of an answered request; undefined for one that has none. */
export const leakOf = (answer: Answer | undefined): LeakFound | undefined =>
  // The calculation's own schema is tested to be what its result is.
  answer?.kind === "answer" ? (answer.result as LeakFound) : undefined;
