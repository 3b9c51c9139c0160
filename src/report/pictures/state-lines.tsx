import { formatNumber } from "../../units/index.ts";
import { TEXT } from "./axis.tsx";
import { type Point, pathOf } from "./decimate.ts";
import type { PiecedLine, StatePoint } from "./phase-points.ts";
import type { Plot, ToPlace } from "./plot.ts";
import type { PressureEnthalpyProps } from "./pressure-enthalpy-props.ts";
import { clampedCentre, px, spread, textWidth } from "./text-room.ts";

interface LinesProps {
  readonly props: PressureEnthalpyProps;
  readonly plot: Plot;
  readonly place: ToPlace;
}

/** The dome, and within and around it the lines of one vapour fraction and of one temperature. */
export function Lines({ props: whole, plot, place }: LinesProps) {
  const props = { ...whole, isotherms: fewer(whole.isotherms, plot) };
  const { id, bubble, dew, critical, qualities, isotherms } = props;
  const line = (points: readonly StatePoint[]): string => pathOf([points.map(place)]);
  const pieced = (pieces: PiecedLine): string => pathOf(pieces.map((piece) => piece.map(place)));
  const top = critical ? [critical] : [];
  return (
    <>
      <g clip-path={`url(#${id}-plot)`}>
        <path class="pic-two-phase" d={line([...bubble, ...top, ...[...dew].reverse()])} />
        {qualities.map((one, i) => (
          <path key={i} class="pic-quality" d={pieced(one.line)} />
        ))}
        {isotherms.map((one, i) => (
          <path key={i} class="pic-isotherm" d={pieced(one.line)} />
        ))}
        <path class="pic-bubble" d={line([...bubble, ...top])} />
        <path class="pic-dew" d={line([...dew, ...top])} />
      </g>
      <QualityNames {...{ props, plot, place }} />
      <IsothermNames {...{ props, plot, place }} />
      <PhaseNames {...{ props, plot, place }} />
      {critical && <Critical at={place(critical)} plot={plot} />}
    </>
  );
}

/** Every so many of the isotherms, so that each has room for its name. */
function fewer<T>(isotherms: readonly T[], { left, right }: Plot): readonly T[] {
  const step = Math.ceil(isotherms.length / Math.max(4, (right - left) / 90));
  return isotherms.filter((_, i) => i % step === 0);
}

function Critical({ at, plot }: { at: Point; plot: Plot }) {
  const text = "critical point";
  const x = clampedCentre(at.x, textWidth(text, TEXT), plot.left, plot.right);
  return (
    <g class="pic-critical">
      <circle cx={px(at.x)} cy={px(at.y)} r="3.5" />
      <text class="pic-over" x={px(x)} y={px(at.y - 9)} font-size={TEXT} text-anchor="middle">
        {text}
      </text>
    </g>
  );
}

/** Vapour fractions at the feet of their lines, as many as have room. */
function QualityNames({ props: { qualities, basis }, plot, place }: LinesProps) {
  const names = qualities.flatMap(({ quality, line }) => {
    const first = line[0]?.[0];
    if (!first) return [];
    return [{ text: `${formatNumber(quality * 100, 0)} %`, x: place(first).x }];
  });
  const kept = names.filter(
    ({ x, text }, i) =>
      x - textWidth(text, TEXT) / 2 > plot.left &&
      (i % 2 === 1 || roomBetween(names) > textWidth(text, TEXT) + 8),
  );
  const [first, last] = [names[0]?.x ?? 0, names.at(-1)?.x ?? 0];
  const caption = `vapour by ${basis}`;
  return (
    <>
      {last - first > textWidth(caption, TEXT) && (
        <text
          class="pic-quality-name pic-over"
          x={px((first + last) / 2)}
          y={plot.bottom - 22}
          font-size={TEXT}
          text-anchor="middle"
        >
          {caption}
        </text>
      )}
      {kept.map(({ text, x }, i) => (
        <text
          key={i}
          class="pic-quality-name pic-over"
          x={px(x)}
          y={plot.bottom - 6}
          font-size={TEXT}
          text-anchor="middle"
        >
          {text}
        </text>
      ))}
    </>
  );
}

const roomBetween = ([a, b]: readonly { readonly x: number }[]): number =>
  a && b ? Math.abs(b.x - a.x) : Infinity;

/** Temperatures where their lines leave the bottom of the picture: there vapour's enthalpy hardly knows pressure. */
function IsothermNames({ props: { isotherms, shown }, plot, place }: LinesProps) {
  const feet = isotherms.flatMap(({ T, line }) => {
    const last = line.at(-1)?.at(-1);
    const foot = last && place(last);
    // A line that ends in the liquid or leaves at the side has its name nowhere near the bottom.
    if (!foot || foot.y < plot.bottom - 2 || foot.x > plot.right + 1) return [];
    return [{ x: foot.x, text: formatNumber(shown.T.value(T), 0) }];
  });
  if (feet.length === 0) return null;
  const widest = Math.max(...feet.map(({ text }) => textWidth(text, TEXT)));
  const unit = shown.T.label;
  const end = plot.right - textWidth(unit, TEXT) - 4;
  const places = spread(
    feet.map(({ x }) => x),
    widest + 3,
    plot.left,
    end - widest / 2,
  );
  return (
    <g>
      {feet.map(({ text }, i) => (
        <text
          key={i}
          class="pic-isotherm-name"
          x={px(places[i] ?? 0)}
          y={plot.bottom + 11}
          font-size={TEXT}
          text-anchor="middle"
        >
          {text}
        </text>
      ))}
      <text
        class="pic-isotherm-name"
        x={plot.right}
        y={plot.bottom + 11}
        font-size={TEXT}
        text-anchor="end"
      >
        {unit}
      </text>
    </g>
  );
}

/** Places along a line of the dome where its side may be named, best first. */
const PLACES = [0.55, 0.35, 0.75, 0.2];
/** So far from any mark a name stays readable, px. */
const CLEAR = 26;

/** "liquid" and "vapour" on their sides of the dome, away from marks. */
function PhaseNames({ props: { bubble, dew, states, cycles }, plot, place }: LinesProps) {
  const loops = cycles.flatMap(({ points }) => points.map(place));
  const marks = [...states.map(place), ...loops.flatMap((at, i) => along(at, loops[i + 1]))];
  const named = [
    { text: "liquid", points: bubble, side: -1 },
    { text: "vapour", points: dew, side: 1 },
  ] as const;
  return (
    <>
      {named.map(({ text, points, side }) => {
        const room = textWidth(text, TEXT);
        const at = PLACES.map((part) => points[Math.floor(points.length * part)])
          .filter((one): one is StatePoint => one !== undefined)
          .map((one) => ({ x: place(one).x + side * 9, y: place(one).y - 4 }))
          .find(({ x, y }) => {
            const middle = x + (side * room) / 2;
            const inside = x + side * room > plot.left && x + side * room < plot.right;
            return (
              inside && marks.every((m) => Math.hypot(m.x - middle, m.y - y) > room / 2 + CLEAR)
            );
          });
        return (
          at && (
            <text
              key={text}
              class="pic-name pic-over"
              x={px(at.x)}
              y={px(at.y)}
              font-size={TEXT}
              text-anchor={side < 0 ? "end" : "start"}
            >
              {text}
            </text>
          )
        );
      })}
    </>
  );
}

/** Points along a stretch of a loop, close enough that a name would touch one of them. */
const along = (from: Point, to: Point = from): Point[] =>
  [0, 0.25, 0.5, 0.75].map((part) => ({
    x: from.x + part * (to.x - from.x),
    y: from.y + part * (to.y - from.y),
  }));
