import type { VerdictKind } from "../../report/index.ts";
import type { StopMark } from "../../trial/index.ts";

/** A gross mass against the stop mark, kg. */
export interface FillState {
  readonly kind: VerdictKind;
  readonly word: string;
  /** To the stop mark; below zero it is passed. */
  readonly left: number;
  readonly says: string;
}

/** From here on the valve is throttled, as part of what may go in (a choice, no source). */
const NEAR = 0.9;

/** Where a scale's reading stands between tare and stop mark. */
export function fillState({ tare, maxMass, maxGross }: StopMark, gross: number): FillState {
  const left = maxGross - gross;
  if (gross < tare) {
    return {
      kind: "undecided",
      word: "below tare",
      left,
      says: "to the mark, but this is less than the empty vessel: check scale, tare and vessel",
    };
  }
  if (left < 0) {
    return {
      kind: "higher",
      word: "over the limit",
      left,
      says: "too much: stop, and move that much into another vessel before it warms",
    };
  }
  if (gross - tare > NEAR * maxMass) {
    return { kind: "undecided", word: "nearly full", left, says: "to the stop mark: throttle now" };
  }
  return { kind: "within", word: "room left", left, says: "still to the stop mark" };
}
