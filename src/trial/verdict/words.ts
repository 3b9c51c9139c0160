import type { LocalAir } from "../../service/index.ts";
import { formatDifference, formatValue, fromSI, unitSize } from "../../units/index.ts";
import type { Measured, TrialView } from "../view.ts";
import type { Verdict } from "./view.ts";

/** SI value in the unit in which its kind was typed, so that people read what they know. */
export const shown = (value: number, unit: string, atmosphere?: number): string =>
  formatValue(fromSI(value, unit, atmosphere), unit);

/** A difference in steps of the typed unit, without its sign. */
export const shownStep = (difference: number, unit: string, u: number): string =>
  formatDifference(Math.abs(difference) / unitSize(unit), unit, u / unitSize(unit));

export const airOf = ({ atmosphere }: TrialView): LocalAir => ({
  kind: "local-air",
  p: atmosphere.value,
  u: atmosphere.u,
  basis: atmosphere.from,
  doubt: undefined,
});

/** A verdict that cannot be given, with what is missing. */
export const withoutBand =
  (reading: Measured) =>
  (word: string, sentence: string): Verdict => ({
    kind: "undecided",
    word,
    sentence,
    reading,
    basis: "",
    details: [],
    sources: [],
  });
