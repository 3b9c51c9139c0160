import { scaleLinear } from "d3-scale";
import type { Shown } from "../shown.ts";
import { TEXT } from "./axis.tsx";
import { Picture, type PictureTable } from "./picture.tsx";
import { px, textWidth } from "./text-room.ts";

/** Mass in one part of a system, kg. */
export interface PartMass {
  readonly name: string;
  readonly mass: number;
}

export interface ChargeBarsProps {
  /** Unique on the page. */
  readonly id: string;
  readonly title: string;
  readonly shown: Shown;
  readonly parts: readonly PartMass[];
  readonly width: number;
  readonly height?: number;
}

const ROW = 30;
const MOST_ROW = 56;

/** Where the charge lies: a bar for each part, all to one scale. */
export function ChargeBars(props: ChargeBarsProps) {
  const { id, title, shown, parts, width } = props;
  const row = props.height === undefined ? ROW : Math.min(MOST_ROW, props.height / parts.length);
  const left = Math.max(...parts.map(({ name }) => textWidth(name, TEXT))) + 8;
  const room = Math.max(...parts.map(({ mass }) => textWidth(shown.text(mass), TEXT))) + 10;
  const most = Math.max(...parts.map(({ mass }) => mass), 1e-9);
  const x = scaleLinear<number, number>()
    .domain([0, most])
    .range([0, Math.max(20, width - left - room)]);
  return (
    <Picture
      kind="charge"
      id={id}
      title={title}
      description={`Mass by part: ${parts.map(({ name, mass }) => `${name} ${shown.text(mass)}`).join(", ")}.`}
      width={width}
      height={props.height ?? row * parts.length}
    >
      {parts.map(({ name, mass }, i) => (
        <g key={name}>
          <text class="pic-name" x={0} y={px(i * row + row / 2 + 4)} font-size={TEXT}>
            {name}
          </text>
          <rect
            class="pic-bar pic-liquid"
            x={px(left)}
            y={px(i * row + 5)}
            width={px(Math.max(1, x(mass)))}
            height={px(row - 10)}
          />
          <text
            class="pic-number"
            x={px(left + x(mass) + 6)}
            y={px(i * row + row / 2 + 4)}
            font-size={TEXT}
          >
            {shown.text(mass)}
          </text>
        </g>
      ))}
    </Picture>
  );
}

/** The numbers behind the bars, with each part's share. */
export function chargeTable({ title, shown, parts }: ChargeBarsProps): PictureTable {
  const total = parts.reduce((sum, { mass }) => sum + mass, 0);
  return {
    caption: title,
    head: ["Part", "Mass", "Share"],
    rows: parts.map(({ name, mass }) => [
      name,
      shown.text(mass),
      `${((100 * mass) / (total || 1)).toFixed(0)} %`,
    ]),
  };
}
