import type { DiagnosisResult } from "../../calculations/index.ts";
import { COVERAGE_95, type Shown } from "../shown.ts";
import type { VerdictKind } from "../pictures/verdict-mark.tsx";

/** How a diagnosis shows its quantities. */
export interface DiagnosisUnits {
  readonly gauge: Shown;
  readonly T: Shown;
  /** A difference of temperatures without a sign. */
  readonly dT: Shown;
  readonly dP: Shown;
  readonly ratio: Shown;
}
export type DiagnosedReading = DiagnosisResult["readings"][number];
type ReadingName = DiagnosedReading["reading"];
export type DiagnosedFault = DiagnosisResult["faults"][number];

export const diagnosedNames: Readonly<Record<ReadingName, string>> = {
  low: "Low side",
  high: "High side",
  vent: "Vent",
  superheat: "Superheat",
  subcooling: "Subcooling",
  discharge: "Discharge line",
  liquidLine: "Liquid line",
  duty: "Clutch engaged",
  static: "Static pressure",
};

export function shownFor(reading: ReadingName, units: DiagnosisUnits): Shown {
  switch (reading) {
    case "low":
    case "high":
    case "static":
      return units.gauge;
    case "vent":
    case "discharge":
    case "liquidLine":
      return units.T;
    case "superheat":
    case "subcooling":
      return units.dT;
    case "duty":
      return units.ratio;
  }
}

const unsigned = (text: string): string => text.replace(/^\+/, "");

/** "38 % (12 % to 67 %) of the condenser's air is missing": what the fault would be, if it is the one. */
export function severityText({ severity }: DiagnosedFault, units: DiagnosisUnits) {
  if (!severity) return undefined;
  const { median, from, to, unit, of } = severity;
  const shown = unit === "Pa" ? units.dP : unit === "K" ? units.dT : units.ratio;
  const u = (to - from) / (2 * COVERAGE_95);
  const [at, low, high] = [median, from, to].map((value) => unsigned(shown.text(value, u)));
  return `${at ?? ""} (${low ?? ""} to ${high ?? ""}) ${of}`;
}

/** "For it: high side (runs 1, 2), static pressure (run 1); against it: vent (run 2)". One run needs no number. */
export function signsText({ signs }: DiagnosedFault, runs: number): string {
  const list = (says: "for" | "against"): string => {
    const places = new Map<ReadingName, number[]>();
    for (const { reading, run, says: own } of signs) {
      if (own === says) places.set(reading, [...(places.get(reading) ?? []), run + 1]);
    }
    return [...places]
      .map(([reading, where]) => {
        const name = diagnosedNames[reading].toLowerCase();
        if (runs < 2) return name;
        return `${name} (${where.length > 1 ? "runs" : "run"} ${where.join(", ")})`;
      })
      .join(", ");
  };
  const [speaksFor, against] = [list("for"), list("against")];
  const parts = [
    speaksFor === "" ? "No reading alone is a sign of it" : `For it: ${speaksFor}`,
    against === "" ? "" : `against it: ${against}`,
  ];
  return `${parts.filter((part) => part !== "").join("; ")}.`;
}

/** Under 1 % and over 99 % no digit means anything. */
export function chanceText(probability: number): string {
  if (probability < 0.01) return "under 1 %";
  return probability > 0.99 ? "over 99 %" : `${Math.round(100 * probability)} %`;
}

/** Bits in words: one bit decides between two. */
export function informationText(bits: number): string {
  if (bits >= 0.5) return "tells the two apart well";
  return bits >= 0.15 ? "helps to tell the two apart" : "tells a little";
}

export function minutesText(minutes: number): string {
  if (minutes < 60) return `about ${minutes} min`;
  const hours = Math.round(minutes / 60);
  return `about ${hours} h`;
}

/** A reading with its instrument's interval beside the band of sound vehicles. */
export function readingVerdict({ value, band, u }: DiagnosedReading): {
  readonly kind: VerdictKind;
  readonly word: string;
} {
  const centre = (band.from + band.to) / 2;
  const reach = Math.hypot((band.to - band.from) / 2, COVERAGE_95 * u);
  if (value > centre + reach) return { kind: "higher", word: "higher than sound" };
  if (value < centre - reach) return { kind: "lower", word: "lower than sound" };
  return { kind: "within", word: "as in a sound one" };
}

/** "all 4 as in a sound one" */
export function runSummary(readings: readonly DiagnosedReading[]): string {
  const off = readings.filter((reading) => readingVerdict(reading).kind !== "within").length;
  const all = readings.length;
  return off === 0 ? `all ${all} as in a sound one` : `${off} of ${all} not as in a sound one`;
}

/** What may be said, as a word with its shape. */
export function namedVerdict({ named }: DiagnosisResult): {
  readonly kind: VerdictKind;
  readonly word: string;
} {
  if (named === "healthy") return { kind: "within", word: "healthy" };
  return named === "undecided"
    ? { kind: "undecided", word: "undecided" }
    : { kind: "higher", word: "fault named" };
}
