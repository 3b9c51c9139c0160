import { scaleLinear } from "d3-scale";
import { HorizontalAxis, TEXT } from "./axis.tsx";
import { Picture, type PictureTable } from "./picture.tsx";
import { px, textWidth } from "./text-room.ts";

/** A possible content with its probability, 0 to 1. */
export interface FamilyShare {
  readonly name: string;
  readonly probability: number;
}

/** Mass fraction of one part with its 95 % interval, 0 to 1. */
export interface PartShare {
  readonly name: string;
  readonly mean: number;
  readonly from: number;
  readonly to: number;
}

interface ChartProps {
  /** Unique on the page. */
  readonly id: string;
  readonly title: string;
  readonly width: number;
  /** In a file: left out, the drawing is as high as it needs. */
  readonly height?: number;
}
export interface FamilyBarsProps extends ChartProps {
  /** Most probable first. */
  readonly families: readonly FamilyShare[];
}
export interface PartIntervalsProps extends ChartProps {
  readonly parts: readonly PartShare[];
}

/** A name over its bar: long names need the whole width of a phone. */
const ROW = 44;
const NAME = 15;
const BAR = 14;
/** The axis with its numbers. */
const AXIS = 26;
const SIDE = 10;

/** Probabilities to the digits that mean something. */
export function chanceText(p: number): string {
  if (p > 0.995) return "> 99 %";
  if (p < 0.01) return "< 1 %";
  return `${(100 * p).toFixed(0)} %`;
}

/** Mass fractions as per cent: one digit behind the point where they are small. */
export const shareText = (x: number): string =>
  x > 0 && x < 0.1 ? `${(100 * x).toFixed(1)} %` : `${(100 * x).toFixed(0)} %`;

const percentScale = (width: number) =>
  scaleLinear<number, number>()
    .domain([0, 100])
    .range([SIDE, Math.max(SIDE + 60, width - SIDE - textWidth("%", TEXT) - 8)]);

/** How probable each possible content is: a bar each, all from 0 to 100 %. */
export function FamilyBars({ id, title, families, width, height }: FamilyBarsProps) {
  const x = percentScale(width);
  const bottom = families.length * ROW + 4;
  return (
    <Picture
      kind="charge"
      id={id}
      title={title}
      description={`Probability of each content: ${families.map(({ name, probability }) => `${name} ${chanceText(probability)}`).join("; ")}.`}
      width={width}
      height={height ?? bottom + AXIS}
    >
      <HorizontalAxis scale={x} y={bottom} right={width} unit="%" gridTo={0} />
      {families.map(({ name, probability }, i) => (
        <g key={name}>
          <text class="pic-name pic-over" x={SIDE} y={px(i * ROW + NAME)} font-size={TEXT + 1}>
            {name}
          </text>
          <rect
            class="pic-bar pic-liquid"
            x={SIDE}
            y={px(i * ROW + NAME + 6)}
            width={px(Math.max(1.5, x(100 * probability) - SIDE))}
            height={BAR}
          />
          <text
            class="pic-number pic-over"
            x={px(numberAt(x(100 * probability), chanceText(probability), x(100)))}
            y={px(i * ROW + NAME + 6 + BAR - 3)}
            font-size={TEXT}
          >
            {chanceText(probability)}
          </text>
        </g>
      ))}
    </Picture>
  );
}

/** Behind the end of a bar, or within it where there is no room behind. */
function numberAt(end: number, text: string, right: number): number {
  const behind = end + 6;
  const room = textWidth(text, TEXT);
  return behind + room <= right ? behind : end - room - 6;
}

/** What a content is made of if it is the right one: the interval of each part as a bar, its mean as a mark. */
export function PartIntervals({ id, title, parts, width, height }: PartIntervalsProps) {
  const x = percentScale(width);
  const bottom = parts.length * ROW + 4;
  return (
    <Picture
      kind="charge"
      id={id}
      title={title}
      description={`Mass fractions with 95 % intervals: ${parts.map((part) => `${part.name} ${rangeText(part)}`).join("; ")}.`}
      width={width}
      height={height ?? bottom + AXIS}
    >
      <HorizontalAxis scale={x} y={bottom} right={width} unit="%" gridTo={0} />
      {parts.map((part, i) => {
        const y = i * ROW + NAME + 6;
        const [from, to] = [x(100 * part.from), x(100 * part.to)];
        return (
          <g key={part.name}>
            <text class="pic-name pic-over" x={SIDE} y={px(i * ROW + NAME)} font-size={TEXT + 1}>
              {`${part.name}: ${rangeText(part)}`}
            </text>
            <rect
              class="pic-bar pic-liquid"
              x={px(from)}
              y={px(y)}
              width={px(Math.max(2, to - from))}
              height={BAR}
            />
            <circle class="pic-state" cx={px(x(100 * part.mean))} cy={px(y + BAR / 2)} r={5} />
          </g>
        );
      })}
    </Picture>
  );
}

/** "58 to 63 %", or one figure where they are the same. */
export function rangeText({ from, to }: PartShare): string {
  const [low, high] = [shareText(from), shareText(to)];
  return low === high ? low : `${low.replace(/\s?%$/u, "")} to ${high}`;
}

export const familyTable = ({ title, families }: FamilyBarsProps): PictureTable => ({
  caption: title,
  head: ["Content", "Probability"],
  rows: families.map(({ name, probability }) => [name, chanceText(probability)]),
});

export const partTable = ({ title, parts }: PartIntervalsProps): PictureTable => ({
  caption: title,
  head: ["Part, by mass", "Mean", "95 % interval"],
  rows: parts.map((part) => [part.name, shareText(part.mean), rangeText(part)]),
});
