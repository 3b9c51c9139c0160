import type { ScaleLogarithmic } from "d3-scale";
import { formatNumber } from "../../units/index.ts";
import { TEXT, type Tick } from "./axis.tsx";
import { px } from "./text-room.ts";

type LogScale = ScaleLogarithmic<number, number>;

/** Steps within a decade, finest first. */
const steps = [[1, 2, 3, 5, 7], [1, 2, 5], [1, 3], [1]] as const;

/** As many round values as have room for their labels, at least the decades. */
export function logTicks(scale: LogScale, distance: number): Tick[] {
  const [low = 1, high = 10] = scale.domain();
  const decades = Array.from(
    { length: Math.ceil(Math.log10(high)) - Math.floor(Math.log10(low)) + 1 },
    (_, i) => Math.floor(Math.log10(low)) + i,
  );
  const atSteps = (within: readonly number[]): Tick[] =>
    decades
      .flatMap((decade) => within.map((step) => ({ value: step * 10 ** decade, decade })))
      .filter(({ value }) => value >= low && value <= high)
      .map(({ value, decade }) => ({
        at: px(scale(value)),
        text: formatNumber(value, Math.max(0, -decade)),
      }));
  const apart = (ticks: readonly Tick[]): boolean =>
    ticks.every((tick, i) => i === 0 || Math.abs(tick.at - (ticks[i - 1]?.at ?? 0)) >= distance);
  return steps.map(atSteps).find(apart) ?? atSteps([1]);
}

interface LogAxisProps {
  readonly scale: LogScale;
  readonly x: number;
  readonly right: number;
}

/** A scale of decades up the left side, with its grid. */
export const LogVerticalAxis = ({ scale, x, right }: LogAxisProps) => (
  <g class="pic-axis">
    {logTicks(scale, 17).map(({ at, text }) => (
      <g>
        <line class="pic-grid" x1={x} x2={right} y1={at} y2={at} />
        <text x={x - 6} y={at + 4} font-size={TEXT} text-anchor="end">
          {text}
        </text>
      </g>
    ))}
  </g>
);
