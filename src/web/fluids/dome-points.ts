import type { PiecedLine } from "../../report/index.ts";
import type { PhaseDiagram } from "./results.ts";

/** A line of the diagram as the chart draws it. */
export const pointsOf = ({ pieces }: PhaseDiagram["bubble"]): PiecedLine =>
  pieces.map(({ T, p, h }) => T.map((each, i) => ({ T: each, p: p[i] ?? 0, h: h[i] ?? 0 })));
