import { scaleLinear, type ScaleLinear } from "d3-scale";
import { TEXT, VerticalAxis } from "./axis.tsx";
import { type Point, pathOf } from "./decimate.ts";
import { cut, px, spread } from "./text-room.ts";

/** A line in the shown units of its panel. */
export interface PanelLine {
  /** Stands at the line's end; empty where another line says it. */
  readonly name: string;
  /** A number of the series, or the ink for what is no substance. */
  readonly colour: number | "ink";
  readonly broken: boolean;
  readonly points: readonly Point[];
}

interface WithdrawalPanelProps {
  readonly x: ScaleLinear<number, number>;
  readonly left: number;
  readonly right: number;
  /** Right edge of the picture. */
  readonly edge: number;
  readonly top: number;
  readonly height: number;
  readonly unit: string;
  readonly lines: readonly PanelLine[];
  /** The scale goes from 0 to 100. */
  readonly whole?: boolean;
}

/** Lines of one unit over the mass that is left. */
export function WithdrawalPanel(props: WithdrawalPanelProps) {
  const { x, left, right, edge, top, height, unit, lines, whole } = props;
  const values = lines.flatMap(({ points }) => points.map(({ y }) => y));
  const [low, high] =
    whole === true ? [0, 100] : [Math.min(0, ...values), Math.max(...values, 1e-9)];
  const y = scaleLinear<number, number>()
    .domain([low, whole === true ? high : high * 1.05])
    .range([top + height, top]);
  const named = lines.filter(({ name, points }) => name !== "" && points.length > 0);
  const places = spread(
    named.map(({ points }) => y(points.at(-1)?.y ?? 0) + 4),
    TEXT + 2,
    top + 8,
    top + height - 2,
  );
  return (
    <g>
      <text class="pic-label" x={0} y={top - 12} font-size={TEXT}>
        {unit}
      </text>
      <VerticalAxis scale={y} x={left} right={right} ticks={4} />
      {lines.map(({ colour, broken, points }, i) => (
        <path
          key={i}
          class={`pic-line pic-series-${colour} ${broken ? "pic-broken" : ""}`.trim()}
          d={pathOf([points.map((point) => ({ x: x(point.x), y: y(point.y) }))])}
        />
      ))}
      {named.map(({ name, colour, points }, i) => {
        const end = points.at(-1);
        const at = places[i] ?? 0;
        return (
          <g key={i} class={`pic-series-${colour}`}>
            {end && (
              <path
                class="pic-lead"
                d={`M${px(x(end.x) + 2)} ${px(y(end.y))}L${right + 4} ${px(at - 4)}`}
              />
            )}
            <text class="pic-series-name pic-over" x={right + 8} y={px(at)} font-size={TEXT}>
              {cut(name, TEXT, edge - right - 8)}
            </text>
          </g>
        );
      })}
    </g>
  );
}
