import { type LinePoint, thinned } from "./phase-points.ts";
import type { PictureTable } from "./picture.tsx";
import type { PressureTemperatureProps, SaturationLine } from "./pressure-temperature-props.ts";

/** The chart in a few sentences: for those who hear it. */
export function pressureTemperatureDescription(props: PressureTemperatureProps): string {
  const { lines, readings, shownT, shownP } = props;
  const said = ({ T, p }: LinePoint): string => `${shownP.text(p)} at ${shownT.text(T)}`;
  const lineText = ({ name, bubble, dew }: SaturationLine): string => {
    const [first, last] = [bubble[0], bubble.at(-1)];
    if (!first || !last) return `${name}: no line.`;
    const glide = dew
      ? " A band reaches from the full line, where it begins to boil, to the broken one, where it begins to condense."
      : "";
    return `${name}: from ${said(first)} to ${said(last)}.${glide}`;
  };
  return [
    "Pressure against temperature of boiling.",
    ...lines.map(lineText),
    ...readings.map(({ name, T, p }) => `${name}: ${shownP.pair(p)} at ${shownT.pair(T)}.`),
  ].join(" ");
}

/** Rows of a line that are worth reading. */
const ROWS = 12;

/** The numbers behind the chart. */
export function pressureTemperatureTable(props: PressureTemperatureProps): PictureTable {
  const { lines, readings, shownT, shownP } = props;
  const rows = (name: string, points: readonly LinePoint[]): string[][] =>
    thinned(points, ROWS).map(({ T, p }) => [name, shownT.text(T), shownP.text(p)]);
  return {
    caption: props.title,
    head: ["What", "Temperature", "Pressure"],
    rows: [
      ...readings.map(({ name, T, p }) => [name, shownT.pair(T), shownP.pair(p)]),
      ...lines.flatMap(({ name, bubble, dew }) =>
        dew
          ? [...rows(`${name}, boiling`, bubble), ...rows(`${name}, condensing`, dew)]
          : rows(name, bubble),
      ),
    ],
  };
}
