import type { Answer } from "../../calculations/index.ts";
import type { LinePoint, SaturationLine } from "../../report/index.ts";
import type { Job } from "../engine/batch.ts";
import type { Chosen } from "./chosen.ts";
import { isBlend, resultOf } from "./results.ts";

/** From a winter's morning to a condenser in traffic, −20 to 70 °C, K. */
export const GRID = Array.from({ length: 19 }, (_, i) => 253.15 + 5 * i);
/** Saturation over the grid. */
export const sweepJobs = ({ input }: Chosen): Job[] =>
  GRID.map((T) => ({ name: "saturation", input: { ...input, T } }));

export interface DoubtedPoint extends LinePoint {
  /** Standard uncertainty of the pressure, Pa, where the answer has one. */
  readonly u?: number;
}

export interface DoubtedLine extends SaturationLine {
  readonly bubble: readonly DoubtedPoint[];
  readonly dew?: readonly DoubtedPoint[];
}

/** Lines of a sweep: temperatures without boiling are left out. */
export function lineOf(name: string, answers: readonly Answer[]): DoubtedLine | undefined {
  const bubble: DoubtedPoint[] = [];
  const dew: DoubtedPoint[] = [];
  for (const answer of answers) {
    const found = resultOf("saturation", answer);
    const doubt = answer.kind === "answer" ? (answer.uncertainty ?? {}) : {};
    const add = (line: DoubtedPoint[], { T, p }: LinePoint, u: number | undefined): number =>
      line.push({ T, p, ...(u !== undefined && { u }) });
    if (found && !isBlend(found)) add(bubble, found, undefined);
    if (found && isBlend(found)) {
      if (found.bubble) add(bubble, found.bubble, doubt["bubble.p"]);
      if (found.dew) add(dew, found.dew, doubt["dew.p"]);
    }
  }
  if (bubble.length + dew.length === 0) return undefined;
  return { name, bubble, ...(dew.length > 0 && { dew }) };
}
