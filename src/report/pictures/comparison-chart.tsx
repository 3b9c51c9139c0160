import { scaleLinear } from "d3-scale";
import type { Measured } from "../../trial/index.ts";
import { COVERAGE_95, type Shown } from "../shown.ts";
import { HorizontalAxis, TEXT } from "./axis.tsx";
import { Whisker } from "./band-scale.tsx";
import { Drawing, type PictureTable } from "./picture.tsx";
import { cut, px, textWidth } from "./text-room.ts";

/** One quantity: what was read with each charge, and each difference from the first. */
export interface ComparisonRow {
  readonly name: string;
  readonly shown: Shown;
  readonly shownDifference: Shown;
  /** The label refrigerant first. */
  readonly charges: readonly {
    readonly name: string;
    readonly measured: Measured;
    /** From the first; absent for the first itself. */
    readonly difference?: Measured;
  }[];
}

export interface ComparisonChartProps {
  readonly id: string;
  readonly title: string;
  readonly rows: readonly ComparisonRow[];
  readonly width: number;
}

const NAME = 20;
const LINE = 26;
const AXIS = 34;

const heightOf = ({ charges }: ComparisonRow): number => NAME + charges.length * LINE + AXIS;

/** Each quantity on a scale of its own; each charge a line of its own, its 95 % interval as a whisker. */
export function ComparisonChart(props: ComparisonChartProps) {
  const { id, title, rows, width } = props;
  const tops = rows.map((_, i) => rows.slice(0, i).reduce((sum, row) => sum + heightOf(row), 0));
  const height = rows.reduce((sum, row) => sum + heightOf(row), 0);
  return (
    <figure class="pic pic-comparison">
      <figcaption>
        <span class="pic-title">{title}</span>
      </figcaption>
      <Drawing
        id={id}
        title={title}
        description={comparisonDescription(props)}
        width={width}
        height={Math.max(height, 20)}
      >
        {rows.map((row, i) => (
          <Quantity key={i} row={row} top={tops[i] ?? 0} width={width} />
        ))}
      </Drawing>
    </figure>
  );
}

function Quantity({ row, top, width }: { row: ComparisonRow; top: number; width: number }) {
  const names = Math.min(
    width * 0.3,
    Math.max(...row.charges.map(({ name }) => textWidth(name, TEXT))) + 14,
  );
  const texts = row.charges.map(({ difference, measured }) =>
    difference ? row.shownDifference.pair(difference) : row.shown.pair(measured),
  );
  const right = width - Math.max(...texts.map((text) => textWidth(text, TEXT))) - 10;
  const scale = scaleOf(row, names, right);
  const axis = top + NAME + row.charges.length * LINE;
  return (
    <g>
      <text class="pic-name" x={0} y={top + 13} font-size="13">
        {row.name} <tspan class="pic-unit">{row.shown.label}</tspan>
      </text>
      <HorizontalAxis scale={scale} y={axis} right={right + 24} unit="" gridTo={top + NAME + 2} />
      {row.charges.map((charge, i) => (
        <Charge
          key={i}
          charge={charge}
          text={texts[i] ?? ""}
          y={top + NAME + (i + 0.5) * LINE}
          x={(si) => scale(row.shown.value(si))}
          names={names}
          width={width}
        />
      ))}
    </g>
  );
}

function scaleOf({ charges, shown }: ComparisonRow, left: number, right: number) {
  const ends = charges.flatMap(({ measured: { value, u } }) => [
    shown.value(value - COVERAGE_95 * u),
    shown.value(value + COVERAGE_95 * u),
  ]);
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const span = high - low || Math.max(Math.abs(high) * 0.1, 1);
  return scaleLinear()
    .domain([low - span * 0.15, high + span * 0.15])
    .range([left, right]);
}

interface ChargeProps {
  readonly charge: ComparisonRow["charges"][number];
  readonly text: string;
  readonly y: number;
  readonly x: (si: number) => number;
  readonly names: number;
  readonly width: number;
}

/** Open circle for the label refrigerant, filled square for a product. */
function Charge({ charge, text, y, x, names, width }: ChargeProps) {
  const { measured, difference } = charge;
  const centre = px(x(measured.value));
  return (
    <g class={difference ? "pic-product" : "pic-baseline"}>
      <text x={0} y={y + 4} font-size={TEXT}>
        {cut(charge.name, TEXT, names - 8)}
      </text>
      <Whisker reading={measured} x={x} y={y} />
      {difference ? (
        <rect class="pic-point" x={px(centre - 5.5)} y={y - 5.5} width="11" height="11" />
      ) : (
        <circle class="pic-point" cx={centre} cy={y} r="6" />
      )}
      <text class="pic-number" x={width} y={y + 4} font-size={TEXT} text-anchor="end">
        {text}
      </text>
    </g>
  );
}

const rowText = ({ name, charges, shown, shownDifference }: ComparisonRow): string =>
  `${name}: ${charges
    .map((charge) => {
      const by = charge.difference
        ? ` (difference ${shownDifference.pair(charge.difference)})`
        : "";
      return `${charge.name} ${shown.pair(charge.measured)}${by}`;
    })
    .join(", ")}.`;

export const comparisonDescription = ({ rows }: ComparisonChartProps): string =>
  `As measured, 95 % intervals, conditions not made equal. ${rows.map(rowText).join(" ")}`;

export const comparisonTable = ({ title, rows }: ComparisonChartProps): PictureTable => ({
  caption: title,
  head: ["Quantity", "Charge", "Read", "Difference"],
  rows: rows.flatMap(({ name, charges, shown, shownDifference }) =>
    charges.map((charge) => [
      name,
      charge.name,
      shown.pair(charge.measured),
      charge.difference ? shownDifference.pair(charge.difference) : "–",
    ]),
  ),
});
