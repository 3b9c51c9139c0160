import { type ScaleContinuousNumeric, scaleLinear, scaleLog } from "d3-scale";
import { formatNumber } from "../../units/index.ts";
import { decimalsOfStep, type Shown } from "../shown.ts";
import { HorizontalAxis, TEXT, VerticalAxis } from "./axis.tsx";
import { decimate, pathOf } from "./decimate.ts";
import { Picture, type PictureTable } from "./picture.tsx";
import { px, spread, textWidth } from "./text-room.ts";
import { rangeOf } from "./trace-line.ts";

export interface HoldChartProps {
  readonly id: string;
  readonly title: string;
  /** Seconds from the valve's closing. */
  readonly t: ArrayLike<number>;
  /** Absolute pressure, Pa. */
  readonly p: ArrayLike<number>;
  readonly shown: Shown;
  /** Levels that the trace is held against, such as the pressure at which water boils. Pa. */
  readonly levels: readonly { readonly p: number; readonly label: string }[];
  /** Competing pictures of the trace, best first: at most three are drawn. */
  readonly fits?: readonly HoldCurve[];
  readonly log?: boolean;
  readonly width: number;
}

/** One curve that may explain a hold. */
export interface HoldCurve {
  readonly label: string;
  /** Seconds on the trace's clock, and Pa. */
  readonly t: ArrayLike<number>;
  readonly p: ArrayLike<number>;
}

const TOP = 26;
const LEFT = 52;

/** Pressure while the pump is shut off. */
export function HoldChart(props: HoldChartProps) {
  const { id, title, shown, width, t, p } = props;
  const height = width < 480 ? 180 : 220;
  const x = scaleLinear()
    .domain([(t[0] ?? 0) / 60, Math.max((t[t.length - 1] ?? 60) / 60, 0.1)])
    .range([LEFT, width - 14]);
  const y = pressureScale(props, height);
  return (
    <Picture
      kind="hold"
      id={id}
      title={title}
      description={holdDescription(props)}
      width={width}
      height={height + 24}
    >
      <text class="pic-label" x={0} y={12} font-size={TEXT}>
        {shown.label}
        {props.log === true ? ", log scale" : ""}
      </text>
      {props.log === true ? (
        <Decades y={y} right={width - 14} />
      ) : (
        <VerticalAxis scale={y} x={LEFT} right={width - 14} ticks={5} />
      )}
      <HorizontalAxis scale={x} y={height} right={width} unit="min" gap={18} />
      <Levels props={props} y={y} />
      <path
        class="pic-line pic-series-1"
        d={pathOf(decimate(t, p, (at, value) => ({ x: x(at / 60), y: y(shown.value(value)) })))}
      />
      {props.fits && <Fits props={props} x={x} y={y} />}
    </Picture>
  );
}

function pressureScale(
  { p, levels, shown, log }: HoldChartProps,
  height: number,
): ScaleContinuousNumeric<number, number> {
  const ends = [...(p.length > 0 ? rangeOf(p) : []), ...levels.map((level) => level.p)].map(
    shown.value,
  );
  const [low, high] = ends.length > 0 ? [Math.min(...ends), Math.max(...ends)] : [0, 1];
  const range: [number, number] = [height, TOP];
  if (log === true && low > 0) {
    return scaleLog<number, number>()
      .domain([low / 1.3, high * 1.4])
      .range(range);
  }
  return scaleLinear()
    .domain([Math.min(0, low), high * 1.1])
    .range(range);
}

/** One line a decade, and 2 and 5 between them: a log scale's own ticks are too many to label. */
function Decades({ y, right }: { y: ScaleContinuousNumeric<number, number>; right: number }) {
  const ticks = y.ticks().filter((tick) => /^[125]/.test(tick.toExponential()));
  return (
    <g class="pic-axis">
      {ticks.map((tick) => (
        <g key={tick}>
          <line class="pic-grid" x1={LEFT} x2={right} y1={px(y(tick))} y2={px(y(tick))} />
          <text x={LEFT - 6} y={px(y(tick) + 4)} font-size={TEXT} text-anchor="end">
            {formatNumber(tick, decimalsOfStep(tick))}
          </text>
        </g>
      ))}
    </g>
  );
}

function Levels({ props, y }: { props: HoldChartProps; y: (value: number) => number }) {
  const { levels, shown, width } = props;
  const at = levels.map(({ p }) => y(shown.value(p)));
  const labels = spread(
    at.map((line) => line - 5),
    TEXT + 3,
    TOP + 8,
    1e4,
  );
  return (
    <g class="pic-level">
      {levels.map(({ label }, i) => (
        <g key={i}>
          <line x1={LEFT} x2={width - 14} y1={px(at[i] ?? 0)} y2={px(at[i] ?? 0)} />
          <text
            x={Math.max(LEFT + textWidth(label, TEXT), width - 16)}
            y={px(labels[i] ?? 0)}
            font-size={TEXT}
            text-anchor="end"
          >
            {label}
          </text>
        </g>
      ))}
    </g>
  );
}

const DASHES = ["6 4", "2 3", "10 3 2 3"];

/** The competing curves, told apart by dashes and by their names at the end, lower right. */
function Fits({
  props,
  x,
  y,
}: {
  props: HoldChartProps;
  x: (minutes: number) => number;
  y: (value: number) => number;
}) {
  const { fits = [], shown, width } = props;
  const drawn = fits.slice(0, DASHES.length);
  const ends = drawn.map(({ label, t, p }) => {
    const from = width - 20 - textWidth(label, TEXT) - 30;
    // Below the curve all along the name: a curve that rises steeply would cross it.
    const first = Array.from(t).findIndex((at) => x(at / 60) >= from);
    const lowest = Math.min(p[Math.max(first - 1, 0)] ?? 0, p[p.length - 1] ?? 0);
    return y(shown.value(lowest)) + 16;
  });
  const labels = spread(ends, TEXT + 3, TOP + 8, (width < 480 ? 180 : 220) - 4);
  return (
    <g class="pic-fits">
      {drawn.map(({ label, t, p }, i) => (
        <g key={label}>
          <path
            class="pic-fit"
            stroke-dasharray={DASHES[i]}
            d={pathOf(decimate(t, p, (at, value) => ({ x: x(at / 60), y: y(shown.value(value)) })))}
          />
          <line
            class="pic-fit"
            stroke-dasharray={DASHES[i]}
            x1={width - 20 - textWidth(label, TEXT) - 30}
            x2={width - 20 - textWidth(label, TEXT) - 6}
            y1={px((labels[i] ?? 0) - 4)}
            y2={px((labels[i] ?? 0) - 4)}
          />
          <text x={width - 20} y={px(labels[i] ?? 0)} font-size={TEXT} text-anchor="end">
            {label}
          </text>
        </g>
      ))}
    </g>
  );
}

export function holdDescription({ t, p, shown, levels, fits = [] }: HoldChartProps): string {
  if (p.length === 0) return "Nothing was recorded.";
  const long = ((t[t.length - 1] ?? 0) - (t[0] ?? 0)) / 60;
  const lines = levels.map(({ p: level, label }) => `${label}: ${shown.text(level)}.`);
  return [
    `From ${shown.text(p[0] ?? 0)} to ${shown.text(p[p.length - 1] ?? 0)} in ${long.toFixed(1)} min.`,
    ...lines,
    ...(fits.length > 0 ? [`Curves: ${fits.map(({ label }) => label).join("; ")}.`] : []),
  ].join(" ");
}

/** At most a dozen rows: first, last and what lies evenly between. */
export function holdTable({ title, t, p, shown }: HoldChartProps): PictureTable {
  const count = Math.min(p.length, 12);
  const rows = Array.from({ length: count }, (_, i) => {
    const at = count < 2 ? 0 : Math.round((i * (p.length - 1)) / (count - 1));
    return [`${((t[at] ?? 0) / 60).toFixed(1)} min`, shown.text(p[at] ?? 0)];
  });
  return { caption: title, head: ["Time", "Pressure"], rows };
}
