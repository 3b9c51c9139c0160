import type { ChartRange } from "./chart-range.ts";
import type { ChartLine, ChartPoint } from "./line.ts";

/** What is drawn: everything of a pressure–enthalpy chart, or the two saturation lines only. */
export type DiagramKind = "pressure-enthalpy" | "pressure-temperature";

/** The lines of a chart. */
export interface PhaseDiagram {
  readonly range: ChartRange;
  /** Of the equation; `undefined` for a blend: its lines end short of it. */
  readonly critical: ChartPoint | undefined;
  /** Saturated liquid; of a blend with the blend's composition. */
  readonly bubble: ChartLine;
  /** Saturated vapour. */
  readonly dew: ChartLine;
  readonly isotherms: readonly { readonly T: number; readonly line: ChartLine }[];
  /** Lines of one vapour fraction by mole, of a pure fluid also by mass. */
  readonly fractions: readonly { readonly fraction: number; readonly line: ChartLine }[];
}
