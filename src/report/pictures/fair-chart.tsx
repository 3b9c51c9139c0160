import { scaleLinear } from "d3-scale";
import type { FairRow } from "../../trial/index.ts";
import { COVERAGE_95, type Shown } from "../shown.ts";
import { HorizontalAxis, TEXT } from "./axis.tsx";
import { fairKind } from "./fair-scales.tsx";
import { Picture, type PictureTable } from "./picture.tsx";
import { cut, px, textWidth } from "./text-room.ts";
import { VerdictMark } from "./verdict-mark.tsx";

/** One effect with its name, the product and the condition. */
export interface FairChartRow {
  readonly name: string;
  readonly row: FairRow;
}

export interface FairChartProps {
  /** Unique on the page. */
  readonly id: string;
  readonly title: string;
  readonly rows: readonly FairChartRow[];
  /** Of the difference; all rows are of one quantity. */
  readonly shown: Shown;
  readonly width: number;
  readonly height?: number;
}

const ROW = 58;
/** What a row grows by when its name takes two lines. */
const LINE = 15;
const TOP = 22;
const AXIS = 30;
/** From here on names stand beside their marks, else above them. */
const WIDE_FROM = 560;
/** More of the width than this the names may not take. */
const MOST_NAMES = 0.48;
/** Bold letters run about a tenth wider. */
const BOLDER = 1.1;
const NAME = (TEXT + 1) * BOLDER;

/** All effects on one scale: as measured above, in equal conditions below, both against the margin. */
export function FairChart({ id, title, rows, shown, width, height }: FairChartProps) {
  const names = Math.max(0, ...rows.map(({ name }) => textWidth(name, NAME))) + 24;
  const beside = width >= WIDE_FROM && names <= MOST_NAMES * width;
  const margin = rows[0]?.row.margin ?? 0;
  const values = rows.flatMap(({ row }) => [
    ...ends(row.asMeasured),
    row.interval.from,
    row.interval.to,
    -margin,
    margin,
  ]);
  const air = 0.06 * (Math.max(...values) - Math.min(...values));
  const x = scaleLinear<number, number>()
    .domain([shown.value(Math.min(...values) - air), shown.value(Math.max(...values) + air)])
    .range([beside ? names : 8, width - 34]);
  const at = (value: number): number => px(x(shown.value(value)));
  const twoLines = !beside && names > width;
  const step = twoLines ? ROW + LINE : ROW;
  const tall = TOP + rows.length * step;
  return (
    <Picture
      kind="comparison"
      id={id}
      title={title}
      description={fairChartWords(rows, shown)}
      width={width}
      height={height ?? tall + AXIS}
    >
      <rect
        class="pic-band-block"
        x={at(-margin)}
        y={TOP}
        width={px(at(margin) - at(-margin))}
        height={tall - TOP}
      />
      <text
        class="pic-label"
        x={px((at(-margin) + at(margin)) / 2)}
        y={TOP - 7}
        font-size={TEXT}
        text-anchor="middle"
      >
        {`margin ± ${shown.text(margin).replace(/^\+/u, "")}`}
      </text>
      <HorizontalAxis scale={x} y={tall} right={width} unit={shown.label} gridTo={TOP} />
      {rows.map(({ name, row }, i) => {
        const lines = twoLines ? inTwo(name) : [name];
        const y = TOP + (i + 1) * step - ROW;
        return (
          <g key={name}>
            {lines.map((line, k) => (
              <text
                key={line}
                class="pic-name pic-over"
                x={8}
                y={y + (beside ? 43 : 17) - (lines.length - 1 - k) * LINE}
                font-size={TEXT + 1}
              >
                {cut(line, NAME, width - 16)}
              </text>
            ))}
            <Whisker
              from={at(ends(row.asMeasured)[0])}
              to={at(ends(row.asMeasured)[1])}
              y={y + 30}
            />
            <VerdictMark kind="undecided" x={at(row.asMeasured.value)} y={y + 30} r={6} />
            <Whisker from={at(row.interval.from)} to={at(row.interval.to)} y={y + 47} />
            <VerdictMark
              kind={fairKind(row.verdict)}
              x={at(row.equalConditions.value)}
              y={y + 47}
              r={6}
            />
          </g>
        );
      })}
    </Picture>
  );
}

/** "Heron, road at steady speed: equivalent": the verdict takes the second line, so that it is never cut. */
function inTwo(name: string): readonly string[] {
  const colon = name.lastIndexOf(": ");
  return colon < 0 ? [name] : [name.slice(0, colon), name.slice(colon + 2)];
}

const ends = ({ value, u }: FairRow["asMeasured"]): readonly [number, number] => [
  value - COVERAGE_95 * u,
  value + COVERAGE_95 * u,
];

const Whisker = ({ from, to, y }: { from: number; to: number; y: number }) => (
  <path
    class="pic-whisker"
    d={`M${from} ${y - 4}V${y + 4}M${from} ${y}H${to}M${to} ${y - 4}V${y + 4}`}
  />
);

const fairChartWords = (rows: readonly FairChartRow[], shown: Shown): string =>
  `Hollow diamonds: as measured, conditions not equal. Filled marks: in equal conditions. Whiskers: 95 %. ${rows
    .map(
      ({ name, row }) =>
        `${name}: as measured ${shown.pair(row.asMeasured)}, in equal conditions ${shown.pair(row.equalConditions)}, ${row.verdict}`,
    )
    .join("; ")}.`;

export const fairChartTable = ({ title, rows, shown }: FairChartProps): PictureTable => ({
  caption: title,
  head: ["Product and condition", "As measured", "Equal conditions", "Verdict"],
  rows: rows.map(({ name, row }) => [
    name,
    shown.pair(row.asMeasured),
    shown.pair(row.equalConditions),
    row.verdict,
  ]),
});
