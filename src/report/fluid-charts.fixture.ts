import { compute } from "../calculations/index.ts";
import type { LinePoint, StatePoint } from "./pictures/phase-points.ts";

/** Data for the charts of a fluid, worked out with the house's own calculations. */

interface Saturation {
  readonly T: number;
  readonly p: number;
  readonly hL: number;
  readonly hV: number;
}

/** What a calculation says; a fixture asks nothing that has no answer. */
function answer(name: string, input: Record<string, unknown>): unknown {
  const outcome = compute(name, input);
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  return outcome.result;
}

const saturation = (fluid: string, T: number): Saturation =>
  answer("saturation", { fluid, T }) as Saturation;

/** Evenly spaced, both ends included. */
export const between = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));

export function domeOf(fluid: string, from: number, to: number, count = 40) {
  const rows = between(from, to, count).map((T) => saturation(fluid, T));
  return {
    bubble: rows.map(({ T, p, hL }): StatePoint => ({ T, p, h: hL })),
    dew: rows.map(({ T, p, hV }): StatePoint => ({ T, p, h: hV })),
    basis: "mass" as const,
    qualities: [0.2, 0.4, 0.6, 0.8].map((quality) => ({
      quality,
      line: [rows.map(({ T, p, hL, hV }) => ({ T, p, h: hL + quality * (hV - hL) }))],
    })),
  };
}

export const boilingLine = (fluid: string, from: number, to: number): LinePoint[] =>
  between(from, to, 30).map((T) => saturation(fluid, T));

export function isotherm(fluid: string, T: number, pressures: readonly number[]) {
  const points = pressures.map((p) => answer("state", { fluid, T, p }) as StatePoint);
  return { T, line: [points] };
}
