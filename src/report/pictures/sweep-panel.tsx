import { scaleLinear, type ScaleLinear } from "d3-scale";
import { TEXT, VerticalAxis } from "./axis.tsx";
import { type Point, pathOf } from "./decimate.ts";
import type { SweepChartProps, SweepLine, SweepPoint } from "./sweep-props.ts";
import { px, textWidth } from "./text-room.ts";

interface SweepPanelProps {
  readonly props: SweepChartProps;
  readonly line: SweepLine;
  readonly x: ScaleLinear<number, number>;
  /** Left edge of the panel's own room. */
  readonly start: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly height: number;
}

/** One quantity: its line, the area around it, and where there is none. */
export function SweepPanel(panel: SweepPanelProps) {
  const { props, line, x, start, left, right, top, height } = panel;
  const { over, here } = props;
  const y = verticalScale(line, top, height);
  const bottom = top + height;
  const place = (si: number, value: number): Point => ({
    x: x(over.shown.value(si)),
    y: y(line.shown.value(value)),
  });
  const pieces = answered(line.points);
  const hereX = here === undefined ? undefined : x(over.shown.value(here));
  return (
    <g>
      <text class="pic-name" x={start} y={top - 10} font-size={TEXT}>
        {line.name}
        <tspan class="pic-unit" dx="6">
          {headOf(line, right - start)}
        </tspan>
      </text>
      <VerticalAxis scale={y} x={left} right={right} ticks={4} />
      <Gaps {...{ props, x, top, height }} />
      {hereX !== undefined && hereX >= left - 1 && hereX <= right + 1 && (
        <line class="pic-here" x1={px(hereX)} x2={px(hereX)} y1={top} y2={bottom} />
      )}
      {pieces.map((points, i) => (
        <Piece key={i} points={points} place={place} />
      ))}
    </g>
  );
}

/** Unit, and what the area means where it has room. */
function headOf({ name, shown, areaName, points }: SweepLine, room: number): string {
  const bare = shown.label;
  if (areaName === undefined || points.every(({ area }) => area === undefined)) return bare;
  const full = bare === "" ? areaName : `${bare}, ${areaName}`;
  return textWidth(`${name} ${full}`, TEXT) + 10 < room ? full : bare;
}

type Known = SweepPoint & { readonly y: number };

/** Unbroken runs of points with an answer. */
function answered(points: readonly SweepPoint[]): Known[][] {
  const pieces: Known[][] = [];
  let open: Known[] | undefined;
  for (const point of points) {
    if (point.y === undefined) open = undefined;
    else {
      if (!open) pieces.push((open = []));
      open.push({ ...point, y: point.y });
    }
  }
  return pieces;
}

/** Where a quantity swings, the mean is nobody's reading: the line runs where it does not. */
const steady = (points: readonly Known[]): Known[][] =>
  answered(points.map((point) => (point.area && point.swings === true ? { x: point.x } : point)));

interface PieceProps {
  readonly points: readonly Known[];
  readonly place: (x: number, y: number) => Point;
}

function Piece({ points, place }: PieceProps) {
  // A swing closes where the cycling ends; a band that is not known ends where it stands.
  const swings = points.some((point) => point.swings === true);
  const areas = swings
    ? [points]
    : answered(points.map((point) => (point.area ? point : { x: point.x })));
  return (
    <>
      {areas.map((run, i) => (
        <path key={i} class="pic-sweep-area" d={outline(run, place)} />
      ))}
      <path
        class="pic-line pic-sweep-line"
        d={pathOf(steady(points).map((run) => run.map(({ x, y }) => place(x, y))))}
      />
    </>
  );
}

type GapsProps = Pick<SweepPanelProps, "props" | "x" | "top" | "height">;

function outline(points: readonly Known[], place: PieceProps["place"]): string {
  const upper = points.map(({ x, y, area }) => place(x, area?.to ?? y));
  const lower = points.map(({ x, y, area }) => place(x, area?.from ?? y));
  return `${pathOf([[...upper, ...lower.reverse()]])}Z`;
}

/** Stretches without an answer, half a step wider than the places that have none. */
function Gaps({ props, x, top, height }: GapsProps) {
  const { over, gaps, lines } = props;
  const places = (lines[0]?.points ?? []).map((point) => x(over.shown.value(point.x)));
  const [first = 0, second = 0] = places;
  const last = places.at(-1) ?? first;
  const half = (second - first) / 2;
  return (
    <>
      {gaps.map(({ from, to }, i) => {
        const a = Math.max(first, x(over.shown.value(from)) - half);
        const b = Math.min(last, x(over.shown.value(to)) + half);
        return (
          <g key={i}>
            <rect class="pic-gap" x={px(a)} y={top} width={px(b - a)} height={px(height)} />
            {b - a > textWidth("no answer", TEXT) + 6 && (
              <text
                x={px((a + b) / 2)}
                y={px(top + height / 2 + 4)}
                font-size={TEXT}
                text-anchor="middle"
              >
                no answer
              </text>
            )}
          </g>
        );
      })}
    </>
  );
}

/** Room above and below a line, as a part of its span. */
const AIR = 0.08;

function verticalScale({ points, shown }: SweepLine, top: number, height: number) {
  const values = points.flatMap(({ y, area }) => [
    ...(y === undefined ? [] : [shown.value(y)]),
    ...(area ? [shown.value(area.from), shown.value(area.to)] : []),
  ]);
  const [low, high] = values.length === 0 ? [0, 1] : [Math.min(...values), Math.max(...values)];
  const room = Math.max((high - low) * AIR, Math.abs(high) * 0.01, 1e-6);
  return scaleLinear<number, number>()
    .domain([low - room, high + room])
    .range([top + height, top])
    .nice(4);
}
