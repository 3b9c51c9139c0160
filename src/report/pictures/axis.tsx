import type { ScaleContinuousNumeric } from "d3-scale";
import { formatNumber } from "../../units/index.ts";
import { tickTexts } from "../shown.ts";
import { px, textWidth } from "./text-room.ts";

export const TEXT = 12;

type Scale = ScaleContinuousNumeric<number, number>;

export interface Tick {
  readonly at: number;
  readonly text: string;
}

/** Steps within a decade, first the ones whose labels matter most: 500 and 1,000 are found on every width. */
const decadeSteps = [1, 5, 2];
const LOG_GAP = 8;

/** Round numbers of a log scale; a label without room is left out, and a minor tick with it. */
function logTicks(scale: Scale): Tick[] {
  const [low = 1, high = 1] = scale.domain();
  const first = Math.floor(Math.log10(low));
  const count = Math.ceil(Math.log10(high)) - first + 1;
  const placed: Tick[] = [];
  const bare: Tick[] = [];
  for (const step of decadeSteps) {
    for (let decade = first; decade < first + count; decade++) {
      const value = step * 10 ** decade;
      if (value < low || value > high) continue;
      const tick = { at: px(scale(value)), text: formatNumber(value, Math.max(0, -decade)) };
      if (placed.every((other) => apart(tick, other, LOG_GAP))) placed.push(tick);
      else if (step !== 2) bare.push({ ...tick, text: "" });
    }
  }
  return [...placed, ...bare].sort((a, b) => a.at - b.at);
}

/** As many ticks as have room for their labels, widest label first. */
export function ticksFor(scale: Scale, gap: number, most = 8): Tick[] {
  if ("base" in scale) return logTicks(scale);
  const [from = 0, to = 0] = scale.range();
  for (let count = most; count >= 2; count--) {
    const ticks = toTicks(scale, count);
    const widest = Math.max(0, ...ticks.map(({ text }) => textWidth(text, TEXT)));
    if (ticks.length >= 2 && (ticks.length - 1) * (widest + gap) <= Math.abs(to - from)) {
      if (ticks.every((tick, i) => apart(tick, ticks[i + 1], gap))) return ticks;
    }
  }
  return endTicks(scale, most);
}

/** Where no row of ticks has room: the outermost two of the coarsest row, or the one that is there. */
function endTicks(scale: Scale, most: number): Tick[] {
  for (let count = 2; count <= most; count++) {
    const ticks = toTicks(scale, count);
    const [first, last] = [ticks[0], ticks.at(-1)];
    if (first && last && ticks.length >= 2 && apart(first, last, LOG_GAP)) return [first, last];
  }
  return toTicks(scale, 2).slice(0, 1);
}

const apart = (a: Tick, b: Tick | undefined, gap: number): boolean =>
  b === undefined ||
  Math.abs(b.at - a.at) >= (textWidth(a.text, TEXT) + textWidth(b.text, TEXT)) / 2 + gap;

function toTicks(scale: Scale, count: number): Tick[] {
  const values = scale.ticks(count);
  const texts = tickTexts(values);
  return values.map((value, i) => ({ at: px(scale(value)), text: texts[i] ?? "" }));
}

interface HorizontalAxisProps {
  readonly scale: Scale;
  /** Baseline of the axis. */
  readonly y: number;
  /** Right edge of the picture: the unit stands there. */
  readonly right: number;
  readonly unit: string;
  /** Lines up to here, below the data; none when absent. */
  readonly gridTo?: number;
  readonly gap?: number;
}

/** A scale along the bottom, its unit at the right end; a tick label that would touch the unit gives way. */
export function HorizontalAxis({ scale, y, right, unit, gridTo, gap = 14 }: HorizontalAxisProps) {
  const ticks = ticksFor(scale, gap);
  const [from = 0, to = 0] = scale.range();
  const unitFrom = right - textWidth(unit, TEXT) - 6;
  return (
    // One path for all lines: a page has hundreds of axes.
    <g class="pic-axis" font-size={TEXT} text-anchor="middle">
      {gridTo !== undefined && (
        <path class="pic-grid" d={ticks.map(({ at }) => `M${at} ${gridTo}V${y}`).join("")} />
      )}
      <path
        class="pic-axis-line"
        d={`M${px(from)} ${y}H${px(to)}${ticks.map(({ at }) => `M${at} ${y}v4`).join("")}`}
      />
      {ticks.map(
        ({ at, text }) =>
          text !== "" &&
          at + textWidth(text, TEXT) / 2 < unitFrom && (
            <text x={at} y={y + 17}>
              {text}
            </text>
          ),
      )}
      <text x={right} y={y + 17} text-anchor="end">
        {unit}
      </text>
    </g>
  );
}

interface VerticalAxisProps {
  readonly scale: Scale;
  readonly x: number;
  readonly right: number;
  readonly ticks: number;
}

/** A scale up the left side with its grid; the unit belongs above it, in the caller's hand. */
export function VerticalAxis({ scale, x, right, ticks: count }: VerticalAxisProps) {
  const all = toTicks(scale, count);
  return (
    <g class="pic-axis" font-size={TEXT} text-anchor="end">
      <path class="pic-grid" d={all.map(({ at }) => `M${x} ${at}H${right}`).join("")} />
      {all.map(({ at, text }) => (
        <text x={x - 6} y={at + 4}>
          {text}
        </text>
      ))}
    </g>
  );
}
