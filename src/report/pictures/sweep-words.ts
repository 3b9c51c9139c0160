import type { PictureTable } from "./picture.tsx";
import { thinned } from "./phase-points.ts";
import type { SweepChartProps, SweepGap, SweepLine, SweepPoint } from "./sweep-props.ts";

/** A gap in a sentence. */
export function gapText({ from, to, why }: SweepGap, { over }: SweepChartProps): string {
  const { nominal } = over.shown;
  const where = from === to ? `At ${nominal(from)}` : `From ${nominal(from)} to ${nominal(to)}`;
  return `${where}: no answer. ${why}`;
}

const valueText = ({ shown }: SweepLine, { y, area }: SweepPoint): string => {
  if (y === undefined) return "no answer";
  return area ? `${shown.text(area.from)} to ${shown.text(area.to)}` : shown.text(y);
};

/** The chart in a few sentences: for those who hear it. */
export function sweepDescription(props: SweepChartProps): string {
  const { over, lines, gaps } = props;
  const ends = lines.map((line) => {
    const known = line.points.filter(({ y }) => y !== undefined);
    const [first, last] = [known[0], known.at(-1)];
    if (!first || !last) return `${line.name}: no answer anywhere.`;
    const at = (point: SweepPoint) => `${valueText(line, point)} at ${over.shown.nominal(point.x)}`;
    return `${line.name}: ${at(first)}, ${at(last)}.`;
  });
  return [`Against ${over.name}.`, ...ends, ...gaps.map((gap) => gapText(gap, props))].join(" ");
}

/** Rows that are worth reading. */
const ROWS = 13;

/** The numbers behind the chart. */
export function sweepTable(props: SweepChartProps): PictureTable {
  const { over, lines, title } = props;
  const places = lines[0]?.points.map((_, i) => i) ?? [];
  return {
    caption: title,
    head: [over.name, ...lines.map(({ name }) => name)],
    rows: thinned(places, ROWS).map((i) => [
      over.shown.nominal(lines[0]?.points[i]?.x ?? 0),
      ...lines.map((line) => {
        const point = line.points[i];
        return point ? valueText(line, point) : "no answer";
      }),
    ]),
  };
}
