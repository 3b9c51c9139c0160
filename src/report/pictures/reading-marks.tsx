import { COVERAGE_95 } from "../shown.ts";
import { TEXT } from "./axis.tsx";
import type { PairReading } from "./pressure-temperature-props.ts";
import { px, textWidth } from "./text-room.ts";

interface ReadingMarksProps {
  readonly readings: readonly PairReading[];
  /** SI to pixels. */
  readonly x: (T: number) => number;
  readonly y: (p: number) => number;
  /** Right edge of the picture. */
  readonly edge: number;
}

/** Readings as marks with a whisker each way: 95 % intervals. */
export const ReadingMarks = ({ readings, x, y, edge }: ReadingMarksProps) => (
  <>
    {readings.map((reading, i) => (
      <ReadingMark key={i} reading={reading} x={x} y={y} edge={edge} />
    ))}
  </>
);

function ReadingMark({
  reading: { name, T, p },
  x,
  y,
  edge,
}: Omit<ReadingMarksProps, "readings"> & { readonly reading: PairReading }) {
  const at = { x: x(T.value), y: y(p.value) };
  const [halfT, halfP] = [COVERAGE_95 * T.u, COVERAGE_95 * p.u];
  const [west, east] = [px(x(T.value - halfT)), px(x(T.value + halfT))];
  const [south, north] = [px(y(p.value - halfP)), px(y(p.value + halfP))];
  const left = at.x - 12 - textWidth(name, TEXT) > 40;
  return (
    <g>
      {halfT > 0 && (
        <path
          class="pic-whisker"
          d={`M${west} ${px(at.y - 4)}v8M${west} ${px(at.y)}H${east}M${east} ${px(at.y - 4)}v8`}
        />
      )}
      {halfP > 0 && (
        <path
          class="pic-whisker"
          d={`M${px(at.x - 4)} ${south}h8M${px(at.x)} ${south}V${north}M${px(at.x - 4)} ${north}h8`}
        />
      )}
      <path class="pic-state" d={`M${px(at.x)} ${px(at.y - 7)}l7 7l-7 7l-7 -7z`} />
      <text
        class="pic-name pic-over"
        x={px(left ? at.x - 12 : Math.min(at.x + 12, edge - textWidth(name, TEXT)))}
        y={px(at.y - 8)}
        font-size={TEXT}
        text-anchor={left ? "end" : "start"}
      >
        {name}
      </text>
    </g>
  );
}
