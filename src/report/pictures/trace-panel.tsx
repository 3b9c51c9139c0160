import { scaleLinear, type ScaleLinear } from "d3-scale";
import { COVERAGE_95 } from "../shown.ts";
import { TEXT, VerticalAxis } from "./axis.tsx";
import { decimate, pathOf, straightened } from "./decimate.ts";
import { cut, px, spread } from "./text-room.ts";
import { rangeOf, type TraceLine } from "./trace-line.ts";

interface TracePanelProps {
  readonly unit: string;
  readonly lines: readonly { readonly line: TraceLine; readonly colour: number }[];
  /** Minutes to pixels. */
  readonly x: ScaleLinear<number, number>;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly height: number;
  /** Right edge of the picture. */
  readonly edge: number;
}

/** All lines of one unit. */
export function TracePanel(props: TracePanelProps) {
  const { unit, lines, left, right, top, height, edge } = props;
  const y = valueScale(props);
  const atEnd = lines.map(({ line }) => {
    const last = line.values[line.values.length - 1];
    return y(line.shown.value(last ?? 0)) + 4;
  });
  const labels = spread(atEnd, TEXT + 2, top + 8, top + height + 4);
  return (
    <g>
      <text class="pic-label" x={0} y={top - 10} font-size={TEXT}>
        {unit}
      </text>
      <VerticalAxis scale={y} x={left} right={right} ticks={height < 80 ? 2 : 4} />
      {lines.map(({ line, colour }, i) => (
        <g key={i} class={`pic-series-${colour}`}>
          <Settled line={line} x={props.x} y={y} />
          <path
            class="pic-line"
            d={pathOf(
              decimate(line.t, line.values, (t, value) => ({
                x: props.x(t / 60),
                y: y(line.shown.value(value)),
              })).map(straightened),
            )}
          />
          <text class="pic-series-name" x={right + 8} y={px(labels[i] ?? 0)} font-size={TEXT}>
            {cut(line.label, TEXT, edge - right - 8)}
          </text>
        </g>
      ))}
    </g>
  );
}

function valueScale({ lines, top, height }: TracePanelProps) {
  const ends = lines.flatMap(({ line }) =>
    line.values.length === 0 ? [] : rangeOf(line.values).map(line.shown.value),
  );
  const [low, high] = ends.length > 0 ? [Math.min(...ends), Math.max(...ends)] : [0, 1];
  const span = high - low || Math.max(Math.abs(high) * 0.1, 1);
  return scaleLinear()
    .domain([low - span * 0.06, high + span * 0.06])
    .range([top + height, top]);
}

/** The window that gave the figure: its length along time, its 95 % interval in height. */
function Settled({
  line,
  x,
  y,
}: {
  line: TraceLine;
  x: ScaleLinear<number, number>;
  y: ScaleLinear<number, number>;
}) {
  return (
    <>
      {line.settled.map(({ from, to, measured }, i) => {
        const half = COVERAGE_95 * measured.u;
        const high = y(line.shown.value(measured.value + half));
        const low = y(line.shown.value(measured.value - half));
        const tall = Math.max(Math.abs(low - high), 5);
        return (
          <rect
            key={i}
            class="pic-settled"
            x={px(x(from / 60))}
            y={px((low + high) / 2 - tall / 2)}
            width={px(x(to / 60) - x(from / 60))}
            height={px(tall)}
          />
        );
      })}
    </>
  );
}
