import { scaleLinear, type ScaleLinear } from "d3-scale";
import type { Measured } from "../../trial/index.ts";
import { COVERAGE_95, type Shown } from "../shown.ts";
import { HorizontalAxis, TEXT, VerticalAxis } from "./axis.tsx";
import { pathOf } from "./decimate.ts";
import type { LinePoint } from "./phase-points.ts";
import { Picture } from "./picture.tsx";
import type { PressureTemperatureProps, SaturationLine } from "./pressure-temperature-props.ts";
import { pressureTemperatureDescription } from "./pressure-temperature-words.ts";
import { ReadingMarks } from "./reading-marks.tsx";
import { cut, px, spread, textWidth } from "./text-room.ts";

const TOP = 28;
const BOTTOM = 26;
const LEFT = 40;

/** Temperature against the pressure at which each fluid boils: what a gauge shows beside a warm can. */
export function PressureTemperatureChart(props: PressureTemperatureProps) {
  const { id, title, lines, width, shownT, shownP } = props;
  const height = props.height ?? (width < 480 ? 300 : Math.round(width * 0.52));
  const longest = Math.max(...lines.map(({ name }) => textWidth(name, TEXT)), 20);
  const right = width - Math.min(longest, width * 0.27) - 14;
  const scales = scalesOf(props, right, height - BOTTOM);
  return (
    <Picture
      kind="pressure"
      id={id}
      title={title}
      description={pressureTemperatureDescription(props)}
      width={width}
      height={height}
    >
      <text class="pic-label" x={0} y={14} font-size={TEXT}>
        {shownP.label}
      </text>
      <VerticalAxis scale={scales.y} x={LEFT} right={right} ticks={height < 340 ? 5 : 7} />
      {lines.map((line, i) => (
        <FluidLine key={i} line={line} colour={(i % 5) + 1} scales={scales} />
      ))}
      <Names lines={lines} scales={scales} right={right} width={width} bottom={height - BOTTOM} />
      <ReadingMarks
        readings={props.readings}
        x={(T) => scales.x(shownT.value(T))}
        y={(p) => scales.y(shownP.value(p))}
        edge={width}
        top={TOP + 10}
        bottom={height - BOTTOM - 4}
      />
      <HorizontalAxis
        scale={scales.x}
        y={height - BOTTOM}
        right={width}
        unit={shownT.label}
        gap={18}
      />
    </Picture>
  );
}

interface Scales {
  readonly x: ScaleLinear<number, number>;
  readonly y: ScaleLinear<number, number>;
  readonly place: (point: LinePoint) => { readonly x: number; readonly y: number };
}

function scalesOf(props: PressureTemperatureProps, right: number, bottom: number): Scales {
  const { lines, readings, shownT, shownP } = props;
  const points = lines.flatMap(({ bubble, dew }) => [...bubble, ...(dew ?? [])]);
  const ends = ({ value, u }: Measured): number[] => [
    value - COVERAGE_95 * u,
    value + COVERAGE_95 * u,
  ];
  const temperatures = [...points.map(({ T }) => T), ...readings.flatMap(({ T }) => ends(T))];
  const pressures = [...points.map(({ p }) => p), ...readings.flatMap(({ p }) => ends(p))];
  const span = (values: readonly number[], shown: Shown): [number, number] =>
    values.length === 0
      ? [0, 1]
      : [shown.value(Math.min(...values)), shown.value(Math.max(...values))];
  const x = scaleLinear<number, number>().domain(span(temperatures, shownT)).range([LEFT, right]);
  const y = scaleLinear<number, number>().domain(span(pressures, shownP)).range([bottom, TOP]);
  return {
    x,
    y,
    place: ({ T, p }) => ({ x: x(shownT.value(T)), y: y(shownP.value(p)) }),
  };
}

interface FluidLineProps {
  readonly line: SaturationLine;
  readonly colour: number;
  readonly scales: Scales;
}

/** One line, or a quiet band between a full line of boiling and a broken one of condensing. */
function FluidLine({ line: { bubble, dew }, colour, scales: { place } }: FluidLineProps) {
  const path = (points: readonly LinePoint[]): string => pathOf([points.map(place)]);
  return (
    <g class={`pic-series-${colour}`}>
      {dew && <path class="pic-glide" d={`${path([...bubble, ...[...dew].reverse()])}Z`} />}
      {dew && <path class="pic-line pic-broken" d={path(dew)} />}
      <path class="pic-line" d={path(bubble)} />
    </g>
  );
}

interface NamesProps {
  readonly lines: readonly SaturationLine[];
  readonly scales: Scales;
  readonly right: number;
  readonly width: number;
  readonly bottom: number;
}

/** The name of each fluid at the end of its line. */
function Names({ lines, scales, right, width, bottom }: NamesProps) {
  const ends = lines.map(({ bubble }) => {
    const last = bubble.at(-1);
    return last ? scales.place(last) : { x: right, y: bottom };
  });
  const places = spread(
    ends.map(({ y }) => y + 4),
    TEXT + 3,
    TOP + 8,
    bottom - 2,
  );
  return (
    <>
      {lines.map(({ name }, i) => {
        const end = ends[i] ?? { x: right, y: bottom };
        const y = places[i] ?? 0;
        return (
          <g key={i} class={`pic-series-${(i % 5) + 1}`}>
            {(Math.abs(y - 4 - end.y) > 6 || right - end.x > 12) && (
              <path
                class="pic-lead"
                d={`M${px(end.x + 2)} ${px(end.y)}L${right + 4} ${px(y - 4)}`}
              />
            )}
            <text class="pic-series-name pic-over" x={right + 8} y={px(y)} font-size={TEXT}>
              {cut(name, TEXT, width - right - 8)}
            </text>
          </g>
        );
      })}
    </>
  );
}
