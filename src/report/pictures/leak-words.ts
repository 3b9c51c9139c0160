import { thinned } from "./phase-points.ts";
import { type LeakChartProps, type LeakLine, levelsOf } from "./leak-props.ts";
import type { PictureTable } from "./picture.tsx";

export const minutesText = (seconds: number): string => {
  const minutes = seconds / 60;
  return `${minutes < 10 ? minutes.toFixed(1) : minutes.toFixed(0)} min`;
};

const highest = ({ points }: LeakLine) =>
  points.reduce(
    (best, point) => (point.concentration > best.concentration ? point : best),
    points[0] ?? { t: 0, concentration: 0 },
  );

/** The chart in a few sentences: for those who hear it. */
export function leakDescription(props: LeakChartProps): string {
  const { lines, shown } = props;
  const levels = levelsOf(props).map(({ name, at }) => `${name}: ${shown.text(at)}.`);
  const each = lines.map((line) => {
    const top = highest(line);
    const last = line.points.at(-1);
    const end = last ? `, ${shown.text(last.concentration)} after ${minutesText(last.t)}` : "";
    return `${line.name}: up to ${shown.text(top.concentration)} at ${minutesText(top.t)}${end}.`;
  });
  return ["Concentration in the air over time.", ...levels, ...each].join(" ");
}

/** Rows that are worth reading. */
const ROWS = 13;

/** The numbers behind the chart, at the moments of the first line. */
export function leakTable(props: LeakChartProps): PictureTable {
  const { lines, shown, title, lfl } = props;
  const [first] = lines;
  const moments = thinned(first?.points ?? [], ROWS).map(({ t }) => t);
  const at = ({ points }: LeakLine, t: number): string => {
    const value = between(points, t);
    const over = lfl === undefined ? "" : `, ${((100 * value) / lfl).toFixed(0)} %`;
    return `${shown.text(value)}${over}`;
  };
  return {
    caption: lfl === undefined ? title : `${title}; beside each figure its share of the limit`,
    head: ["Time", ...lines.map(({ name }) => name)],
    rows: moments.map((t) => [minutesText(t), ...lines.map((line) => at(line, t))]),
  };
}

/** Concentration at a moment, on the straight line between two points; the last one behind the end. */
function between(points: LeakLine["points"], t: number): number {
  const after = points.findIndex((point) => point.t >= t);
  const next = after < 0 ? points.at(-1) : points[after];
  const before = points[after - 1];
  if (!next) return 0;
  if (after <= 0 || !before) return next.concentration;
  const part = (t - before.t) / (next.t - before.t);
  return before.concentration + part * (next.concentration - before.concentration);
}
