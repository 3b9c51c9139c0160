import { scaleLinear } from "d3-scale";
import { HorizontalAxis, TEXT } from "./axis.tsx";
import { Drawing, type PictureTable } from "./picture.tsx";
import { cut, px, textWidth } from "./text-room.ts";
import { rangeOf, type TraceLine } from "./trace-line.ts";
import { TracePanel } from "./trace-panel.tsx";

export interface TraceInterval {
  readonly from: number;
  readonly to: number;
  readonly label: string;
}

export interface TraceChartProps {
  readonly id: string;
  readonly title: string;
  readonly lines: readonly TraceLine[];
  readonly intervals: readonly TraceInterval[];
  /** Seconds without any record. */
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
  /** Seconds at which something was kept aside. */
  readonly problems: readonly number[];
  readonly width: number;
}

const LEFT = 40;
const PANEL_GAP = 26;
const TOP = 22;

/** Lines over time, one panel a unit, all over one clock. */
export function TraceChart(props: TraceChartProps) {
  const { id, title, width, lines } = props;
  const panels = panelsOf(lines);
  const height = width < 480 ? 118 : 138;
  const right = width - Math.max(30, ...lines.map(({ label }) => textWidth(label, TEXT))) - 10;
  const x = timeScale(props, right);
  const bottom = TOP + panels.length * (height + PANEL_GAP) - 8;
  const strip = props.problems.length > 0 ? 20 : 0;
  return (
    <figure class="pic pic-trace">
      <figcaption>
        <span class="pic-title">{title}</span>
      </figcaption>
      <Drawing
        id={id}
        title={title}
        description={traceDescription(props)}
        width={width}
        height={bottom + strip + 24}
      >
        <Intervals props={props} x={x} bottom={bottom} />
        {panels.map((panel, i) => (
          <TracePanel
            key={panel.unit}
            {...panel}
            x={x}
            left={LEFT}
            right={right}
            top={TOP + i * (height + PANEL_GAP) + PANEL_GAP - 8}
            height={height}
            edge={width}
          />
        ))}
        {strip > 0 && <Aside props={props} x={x} y={bottom + 12} />}
        <HorizontalAxis scale={x} y={bottom + strip} right={width} unit="min" gap={18} />
      </Drawing>
    </figure>
  );
}

interface Panel {
  readonly unit: string;
  readonly lines: readonly { readonly line: TraceLine; readonly colour: number }[];
}

function panelsOf(lines: readonly TraceLine[]): Panel[] {
  const units = [...new Set(lines.map(({ shown }) => shown.label))];
  return units.map((unit) => ({
    unit,
    lines: lines
      .filter(({ shown }) => shown.label === unit)
      .map((line, i) => ({ line, colour: (i % 5) + 1 })),
  }));
}

function timeScale({ lines, intervals }: TraceChartProps, right: number) {
  const ends = [
    ...lines.flatMap(({ t }) => [t[0] ?? 0, t[t.length - 1] ?? 0]),
    ...intervals.flatMap(({ from, to }) => [from, to]),
  ];
  const [from, to] = ends.length > 0 ? [Math.min(...ends), Math.max(...ends)] : [0, 60];
  return scaleLinear()
    .domain([from / 60, Math.max(to, from + 1) / 60])
    .range([LEFT, right]);
}

type TimeScale = ReturnType<typeof timeScale>;

/** The runs as shaded stretches with their names on top, and where the record has holes. */
function Intervals({ props, x, bottom }: { props: TraceChartProps; x: TimeScale; bottom: number }) {
  return (
    <>
      {props.intervals.map(({ from, to, label }, i) => {
        const [a, b] = [x(from / 60), x(to / 60)];
        return (
          <g key={i}>
            <rect
              class="pic-interval"
              x={px(a)}
              y={18}
              width={px(b - a)}
              height={px(bottom - 18)}
            />
            <path
              class="pic-interval-edge"
              d={`M${px(a)} ${px(bottom)}V18H${px(b)}V${px(bottom)}`}
            />
            {b - a > 40 && (
              <text class="pic-label" x={px(a)} y={12} font-size={TEXT}>
                {cut(label, TEXT, b - a)}
              </text>
            )}
          </g>
        );
      })}
      {props.gaps.map(({ from, to }, i) => (
        <rect
          key={i}
          class="pic-gap"
          x={px(x(from / 60))}
          y={18}
          width={px(Math.max(2, x(to / 60) - x(from / 60)))}
          height={px(bottom - 18)}
        />
      ))}
    </>
  );
}

/** A row of ticks where cells or lines were kept aside. */
function Aside({ props, x, y }: { props: TraceChartProps; x: TimeScale; y: number }) {
  return (
    <g class="pic-aside">
      {props.problems.map((t, i) => (
        <path key={i} d={`M${px(x(t / 60))} ${y - 5}v9`} />
      ))}
      <text x={0} y={y + 4} font-size={TEXT}>
        aside
      </text>
    </g>
  );
}

const minutes = (seconds: number): string => `${(seconds / 60).toFixed(1)} min`;

export function traceDescription({ lines, intervals, gaps, problems }: TraceChartProps): string {
  const parts = lines.map(({ label, shown, values, settled }) => {
    const [low, high] = rangeOf(values);
    const span =
      values.length === 0 ? "no values" : `from ${shown.text(low)} to ${shown.text(high)}`;
    const stands = settled.map(({ measured }) => shown.pair(measured)).join(", then ");
    return `${label}: ${span}${stands === "" ? "" : `; stands at ${stands}`}.`;
  });
  const runs = intervals.map((one) => `${one.label} ${minutes(one.from)} to ${minutes(one.to)}`);
  return [
    ...parts,
    runs.length > 0 ? `Intervals: ${runs.join("; ")}.` : "No intervals.",
    `${gaps.length} gaps in time, ${problems.length} places with something kept aside.`,
  ].join(" ");
}

/** What the lines were taken to stand at, as a table. */
export function traceTable(props: TraceChartProps): PictureTable {
  return {
    caption: props.title,
    head: ["Quantity", "Lowest", "Highest", "Stands at (window)"],
    rows: props.lines.map(({ label, shown, values, settled }) => {
      const [low, high] = rangeOf(values);
      const stands = settled.map(
        ({ from, to, measured }) => `${shown.pair(measured)} (${minutes(from)} to ${minutes(to)})`,
      );
      return [
        label,
        values.length === 0 ? "–" : shown.text(low),
        values.length === 0 ? "–" : shown.text(high),
        stands.join("; ") || "–",
      ];
    }),
  };
}
