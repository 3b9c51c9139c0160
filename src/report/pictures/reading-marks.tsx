import { COVERAGE_95 } from "../shown.ts";
import { TEXT } from "./axis.tsx";
import type { PairReading } from "./pressure-temperature-props.ts";
import { px, spread, textWidth } from "./text-room.ts";

interface ReadingMarksProps {
  readonly readings: readonly PairReading[];
  /** SI to pixels. */
  readonly x: (T: number) => number;
  readonly y: (p: number) => number;
  /** Right edge of the picture. */
  readonly edge: number;
  /** Names stay between these heights. */
  readonly top: number;
  readonly bottom: number;
}

/** Readings as marks with a whisker each way: 95 % intervals. */
export function ReadingMarks({ readings, x, y, edge, top, bottom }: ReadingMarksProps) {
  const names = spread(
    readings.map(({ p }) => y(p.value) - 8),
    TEXT + 3,
    top,
    bottom,
  );
  const hottest = Math.max(...readings.map(({ T }) => x(T.value)));
  return (
    <>
      {readings.map((reading, i) => (
        <ReadingMark
          key={i}
          {...{ reading, x, y, edge }}
          nameY={names[i] ?? 0}
          right={readings.length > 1 && x(reading.T.value) === hottest}
        />
      ))}
    </>
  );
}

interface ReadingMarkProps extends Omit<ReadingMarksProps, "readings" | "top" | "bottom"> {
  readonly reading: PairReading;
  readonly nameY: number;
  /** The name stands on the right where it has room: on the left are other marks. */
  readonly right: boolean;
}

function ReadingMark({ reading: { name, T, p }, x, y, edge, nameY, right }: ReadingMarkProps) {
  const at = { x: x(T.value), y: y(p.value) };
  const [halfT, halfP] = [COVERAGE_95 * T.u, COVERAGE_95 * p.u];
  const [west, east] = [px(x(T.value - halfT)), px(x(T.value + halfT))];
  const [south, north] = [px(y(p.value - halfP)), px(y(p.value + halfP))];
  const room = textWidth(name, TEXT) + 12;
  const left = at.x - room > 40 && !(right && at.x + room < edge - 60);
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
      {Math.abs(nameY - at.y + 8) > 4 && (
        <path
          class="pic-axis-line"
          d={`M${px(at.x)} ${px(at.y)}L${px(at.x + (left ? -10 : 10))} ${px(nameY - 4)}`}
        />
      )}
      <text
        class="pic-name pic-over"
        x={px(left ? at.x - 12 : Math.min(at.x + 12, edge - textWidth(name, TEXT)))}
        y={px(nameY)}
        font-size={TEXT}
        text-anchor={left ? "end" : "start"}
      >
        {name}
      </text>
    </g>
  );
}
