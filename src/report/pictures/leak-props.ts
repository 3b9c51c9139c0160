import type { Shown } from "../shown.ts";

/** Concentration over time under one assumption. s, kg/m3. */
export interface LeakLine {
  /** One or two short words: they stand at the line's end. */
  readonly name: string;
  readonly points: readonly { readonly t: number; readonly concentration: number }[];
}

export interface LeakChartProps {
  /** Unique on the page. */
  readonly id: string;
  readonly title: string;
  readonly shown: Shown;
  /** Worst first: at most three. */
  readonly lines: readonly LeakLine[];
  /** Lower flammability limit, kg/m3; none where none is known or nothing burns. */
  readonly lfl?: number;
  /** Another limit, for lungs, kg/m3. */
  readonly breathing?: { readonly limit: number; readonly name: string };
  /** Decades instead of even steps. */
  readonly log?: boolean;
  readonly width: number;
  readonly height?: number;
}

/** A level across the picture. */
export interface LeakLevel {
  readonly at: number;
  readonly name: string;
  readonly burns: boolean;
}

/** Fraction of the flammability limit at which limits of occupied rooms stand: ASHRAE 34 clause 7. */
const QUARTER = 0.25;

export const levelsOf = ({ lfl, breathing }: LeakChartProps): readonly LeakLevel[] => [
  ...(lfl === undefined
    ? []
    : [
        { at: lfl, name: "burns from", burns: true },
        { at: QUARTER * lfl, name: "a quarter", burns: true },
      ]),
  ...(breathing ? [{ at: breathing.limit, name: breathing.name, burns: false }] : []),
];
