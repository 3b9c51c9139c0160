import {
  type ScaleContinuousNumeric,
  scaleLinear,
  scaleLog,
  type ScaleLogarithmic,
} from "d3-scale";
import { HorizontalAxis, TEXT, VerticalAxis } from "./axis.tsx";
import { pathOf } from "./decimate.ts";
import { type LeakChartProps, type LeakLine, levelsOf } from "./leak-props.ts";
import { leakDescription } from "./leak-words.ts";
import { LogVerticalAxis } from "./log-axis.tsx";
import { Picture } from "./picture.tsx";
import { cut, px, spread, textWidth } from "./text-room.ts";

const TOP = 30;
const FOOT = 28;
const LEFT = 46;
/** On a log scale, how far below the lowest level the picture goes: a leak begins at nothing. */
const BELOW = 4;
/** Colours of the lines: the one of the limits is not among them. */
const SERIES = [1, 3, 4];
/** From so many minutes on the axis counts hours. */
const LONG = 180;

type Scale = ScaleContinuousNumeric<number, number>;

/** What a leak does to the air, over time, against the limits. */
export function LeakChart(props: LeakChartProps) {
  const { id, title, width, lines, shown, log } = props;
  const height = props.height ?? (width < 480 ? 250 : 290);
  const names = [...lines.map(({ name }) => name), ...levelsOf(props).map(({ name }) => name)];
  const margin = Math.min(
    width * 0.34,
    Math.max(...names.map((name) => textWidth(name, TEXT)), 40) + 14,
  );
  const [right, bottom] = [width - margin, height - FOOT];
  const end = Math.max(...lines.map(({ points }) => points.at(-1)?.t ?? 0), 60) / 60;
  const hours = end > LONG;
  const x = scaleLinear()
    .domain([0, hours ? end / 60 : end])
    .range([LEFT, right]);
  const y = verticalScale(props, bottom);
  const floor = log === true ? (y.domain()[0] ?? 0) : 0;
  const aboveFloor = (points: LeakLine["points"], least: number) => {
    const last = points.findLastIndex(({ concentration }) => shown.value(concentration) > least);
    return points.slice(0, last + 2);
  };
  const place = (t: number, value: number) => ({
    x: x(hours ? t / 3600 : t / 60),
    y: Math.min(bottom, y(shown.value(value))),
  });
  return (
    <Picture
      kind="leak"
      id={id}
      title={title}
      description={leakDescription(props)}
      width={width}
      height={height}
    >
      <text class="pic-label" x={0} y={14} font-size={TEXT}>
        {shown.label}
        {log === true ? ", decades" : ""}
      </text>
      {log === true ? (
        <LogVerticalAxis scale={y as ScaleLogarithmic<number, number>} x={LEFT} right={right} />
      ) : (
        <VerticalAxis scale={y} x={LEFT} right={right} ticks={5} />
      )}
      <HorizontalAxis scale={x} y={bottom} right={width} unit={hours ? "h" : "min"} gap={16} />
      <Levels props={props} y={y} right={right} />
      {lines.map(({ points }, i) => (
        <path
          key={i}
          class={`pic-line pic-sweep-line pic-leak-line pic-series-${SERIES[i] ?? 1} ${i > 0 ? "pic-broken" : ""}`.trim()}
          d={pathOf([aboveFloor(points, floor).map((one) => place(one.t, one.concentration))])}
        />
      ))}
      <Names props={props} {...{ y, right, bottom, width }} />
    </Picture>
  );
}

function verticalScale(props: LeakChartProps, bottom: number): Scale {
  const { lines, shown, log } = props;
  const levels = levelsOf(props).map(({ at }) => shown.value(at));
  const values = lines.flatMap(({ points }) =>
    points.map(({ concentration }) => shown.value(concentration)),
  );
  const high = Math.max(...values, ...levels, 1e-9);
  const range: [number, number] = [bottom, TOP];
  if (log !== true) {
    return scaleLinear()
      .domain([0, high * 1.08])
      .range(range);
  }
  const lowest = levels.length > 0 ? Math.min(...levels) : high / 100;
  return scaleLog<number, number>()
    .domain([Math.min(lowest, high) / BELOW, high * 1.3])
    .range(range)
    .clamp(true);
}

interface LevelsProps {
  readonly props: LeakChartProps;
  readonly y: Scale;
  readonly right: number;
}

const Levels = ({ props, y, right }: LevelsProps) => (
  <g>
    {levelsOf(props).map(({ at, name, burns }) => {
      const line = px(y(props.shown.value(at)));
      return (
        <line
          key={name}
          class={burns ? "pic-limit" : "pic-here"}
          x1={LEFT}
          x2={px(right)}
          y1={line}
          y2={line}
        />
      );
    })}
  </g>
);

interface NamesProps extends LevelsProps {
  readonly bottom: number;
  readonly width: number;
}

/** Names of lines and levels in the margin, moved apart where they would touch. */
function Names({ props, y, right, bottom, width }: NamesProps) {
  const { lines, shown } = props;
  const named = [
    ...lines.map(({ name, points }, i) => ({
      name,
      look: `pic-series-name pic-series-${SERIES[i] ?? 1}`,
      at: y(shown.value(points.at(-1)?.concentration ?? 0)),
    })),
    ...levelsOf(props).map(({ name, at, burns }) => ({
      name,
      look: burns ? "pic-limit-name" : "pic-unit",
      at: y(shown.value(at)),
    })),
  ];
  const places = spread(
    named.map(({ at }) => Math.min(at, bottom) + 4),
    TEXT + 3,
    TOP + 4,
    bottom - 1,
  );
  return (
    <g>
      {named.map(({ name, look, at }, i) => {
        const text = places[i] ?? 0;
        return (
          <g key={i} class={look}>
            <path
              class="pic-lead"
              d={`M${px(right + 1)} ${px(Math.min(at, bottom))}L${px(right + 6)} ${px(text - 4)}`}
            />
            <text class={`${look} pic-over`} x={px(right + 9)} y={px(text)} font-size={TEXT}>
              {cut(name, TEXT, width - right - 9)}
            </text>
          </g>
        );
      })}
    </g>
  );
}
