import { formatNumber } from "../../units/index.ts";
import { TEXT } from "./axis.tsx";
import { type Point, pathOf } from "./decimate.ts";
import type { StatePoint } from "./phase-points.ts";
import type { PressureEnthalpyProps } from "./pressure-enthalpy.tsx";
import { clampedCentre, px, spread, textWidth } from "./text-room.ts";

/** Where the lines are drawn, px. */
export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export type ToPlace = (state: StatePoint) => Point;

interface LinesProps {
  readonly props: PressureEnthalpyProps;
  readonly plot: Plot;
  readonly place: ToPlace;
}

/** The dome, and within and around it the lines of one vapour fraction and of one temperature. */
export function Lines({ props, plot, place }: LinesProps) {
  const { id, bubble, dew, critical, qualities, isotherms } = props;
  const line = (points: readonly StatePoint[]): string => pathOf([points.map(place)]);
  const top = critical ? [critical] : [];
  return (
    <>
      <g clip-path={`url(#${id}-plot)`}>
        <path class="pic-two-phase" d={line([...bubble, ...top, ...[...dew].reverse()])} />
        {qualities.map(({ points }, i) => (
          <path key={i} class="pic-quality" d={line(points)} />
        ))}
        {isotherms.map(({ points }, i) => (
          <path key={i} class="pic-isotherm" d={line(points)} />
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
function QualityNames({ props: { qualities }, plot, place }: LinesProps) {
  const names = qualities.flatMap(({ quality, points: [first] }) => {
    if (!first) return [];
    return [{ text: `${formatNumber(quality * 100, 0)} %`, x: place(first).x }];
  });
  const kept = names.filter(
    ({ x, text }, i) =>
      x - textWidth(text, TEXT) / 2 > plot.left &&
      (i % 2 === 1 || roomBetween(names) > textWidth(text, TEXT) + 8),
  );
  return (
    <>
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
  const feet = isotherms.flatMap(({ T, points }) => {
    const foot = points.map(place).find(({ y }) => y >= plot.bottom - 1);
    const x = foot ?? points.map(place).at(-1);
    if (!x || x.x > plot.right + 1) return [];
    return [{ x: x.x, text: formatNumber(shown.T.value(T), 0) }];
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

/** "liquid" and "vapour" on their sides of the dome. */
function PhaseNames({ props: { bubble, dew }, plot, place }: LinesProps) {
  const ofLine = (points: readonly StatePoint[]): Point | undefined => {
    const at = points[Math.floor(points.length * 0.62)];
    return at && place(at);
  };
  const [liquid, vapour] = [ofLine(bubble), ofLine(dew)];
  const room = (text: string): number => textWidth(text, TEXT) + 10;
  return (
    <>
      {liquid && liquid.x - room("liquid") > plot.left && (
        <text
          class="pic-name pic-over"
          x={px(liquid.x - 8)}
          y={px(liquid.y - 8)}
          font-size={TEXT}
          text-anchor="end"
        >
          liquid
        </text>
      )}
      {vapour && vapour.x + room("vapour") < plot.right && (
        <text class="pic-name pic-over" x={px(vapour.x + 8)} y={px(vapour.y - 8)} font-size={TEXT}>
          vapour
        </text>
      )}
    </>
  );
}
