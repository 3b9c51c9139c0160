import { scaleLinear, type ScaleLinear } from "d3-scale";
import { HorizontalAxis } from "./axis.tsx";
import { Picture } from "./picture.tsx";
import { SweepPanel } from "./sweep-panel.tsx";
import type { SweepChartProps } from "./sweep-props.ts";
import { gapText, sweepDescription } from "./sweep-words.ts";

const LEFT = 44;
const HEAD = 26;
const FOOT = 30;
const BETWEEN = 28;
/** From this width on two panels stand side by side. */
const PAIRS = 620;

/** How a few quantities follow one condition: a panel each, over the same scale. */
export function SweepChart(props: SweepChartProps) {
  const { id, title, width, lines, gaps } = props;
  const columns = width >= PAIRS && lines.length > 1 ? 2 : 1;
  const rows = Math.ceil(lines.length / columns);
  const height = props.height ?? rows * (HEAD + FOOT + (width < 480 ? 104 : 130));
  const tall = height / rows - HEAD - FOOT;
  const wide = (width - (columns - 1) * BETWEEN) / columns;
  return (
    <Picture
      kind="sweep"
      id={id}
      title={title}
      description={sweepDescription(props)}
      width={width}
      height={height}
      below={
        gaps.length > 0 && (
          <ul class="pic-gaps">
            {gaps.map((gap, i) => (
              <li key={i}>{gapText(gap, props)}</li>
            ))}
          </ul>
        )
      }
    >
      {lines.map((line, i) => {
        const start = (i % columns) * (wide + BETWEEN);
        const top = Math.floor(i / columns) * (HEAD + FOOT + tall) + HEAD;
        const [left, right] = [start + LEFT, start + wide - 10];
        const x = scaleOver(props, left, right);
        return (
          <g key={i}>
            <SweepPanel {...{ props, line, x, start, left, right, top }} height={tall} />
            <HorizontalAxis
              scale={x}
              y={top + tall}
              right={start + wide}
              unit={props.over.shown.label}
              gap={14}
            />
          </g>
        );
      })}
    </Picture>
  );
}

function scaleOver(
  { lines, over }: SweepChartProps,
  left: number,
  right: number,
): ScaleLinear<number, number> {
  const places = lines.flatMap(({ points }) => points.map(({ x }) => over.shown.value(x)));
  return scaleLinear<number, number>()
    .domain([Math.min(...places), Math.max(...places)])
    .range([left, right]);
}
