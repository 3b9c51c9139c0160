import { TEXT } from "./axis.tsx";
import { type Point, pathOf } from "./decimate.ts";
import type { CycleLine, NamedState } from "./phase-points.ts";
import type { Plot, ToPlace } from "./plot.ts";
import { px, textWidth } from "./text-room.ts";

interface StateMarksProps {
  readonly states: readonly NamedState[];
  readonly place: ToPlace;
  readonly plot: Plot;
}

/** Single states: a diamond each, its name beside it. */
export const StateMarks = ({ states, place, plot }: StateMarksProps) => (
  <g class="pic-states">
    {states.map((state, i) => {
      const at = place(state);
      return (
        <g key={i}>
          <path class="pic-state" d={`M${px(at.x)} ${px(at.y - 7)}l7 7l-7 7l-7 -7z`} />
          <BesideMark at={at} text={state.name} plot={plot} />
        </g>
      );
    })}
  </g>
);

interface CycleMarksProps {
  readonly cycles: readonly CycleLine[];
  readonly place: ToPlace;
  readonly plot: Plot;
}

/** Loops with their corners numbered. */
export const CycleMarks = ({ cycles, place, plot }: CycleMarksProps) => (
  <>
    {cycles.map(({ points, corners }, i) => (
      <g key={i} class={`pic-cycle pic-series-${(i % 5) + 2}`}>
        <path class="pic-cycle-line" d={`${pathOf([points.map(place)])}Z`} />
        {corners.map((corner, c) => {
          const at = place(corner);
          return (
            <g key={c}>
              <circle class="pic-corner" cx={px(at.x)} cy={px(at.y)} r="4.5" />
              <BesideMark at={at} text={corner.name} plot={plot} />
            </g>
          );
        })}
      </g>
    ))}
  </>
);

/** A name to the right of a mark, or to its left where the right has no room. */
function BesideMark({ at, text, plot }: { at: Point; text: string; plot: Plot }) {
  const fits = at.x + 10 + textWidth(text, TEXT) <= plot.right;
  return (
    <text
      class="pic-name pic-over"
      x={px(fits ? at.x + 10 : at.x - 10)}
      y={px(Math.max(at.y - 5, plot.top + 10))}
      font-size={TEXT}
      text-anchor={fits ? "start" : "end"}
    >
      {text}
    </text>
  );
}
