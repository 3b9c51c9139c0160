import type { Shown } from "../shown.ts";
import { TEXT } from "./axis.tsx";
import { compositionText, type MassShare, percentText } from "./composition.ts";
import { Picture, type PictureTable } from "./picture.tsx";
import { CompositionBar } from "./composition-bar.tsx";
import { Fillings } from "./substance-pattern.tsx";
import { px } from "./text-room.ts";

/** One phase in a vessel. */
export interface VesselPhase {
  /** Of the mass inside, 0 to 1. */
  readonly share: number;
  /** By mass, in one order for both phases. */
  readonly composition: readonly MassShare[];
}

export interface VesselPictureProps {
  /** Unique on the page. */
  readonly id: string;
  readonly title: string;
  /** Pa absolute. */
  readonly p: number;
  readonly shownP: Shown;
  /** Part of the volume that is liquid, 0 to 1. */
  readonly liquidVolumeFraction: number;
  readonly liquid?: VesselPhase;
  readonly vapour?: VesselPhase;
  /** A level that must not be passed, as part of the volume. */
  readonly limit?: { readonly fraction: number; readonly name: string };
  readonly width: number;
  readonly height?: number;
}

const TOP = 10;
const ROUND = 10;

/** A vessel with its liquid to scale, the vapour above it, and what each of them is made of. */
export function VesselPicture(props: VesselPictureProps) {
  const { id, title, width, liquid, vapour, liquidVolumeFraction: level, limit } = props;
  const height = props.height ?? (width < 480 ? 236 : 260);
  const wide = Math.min(120, width * 0.28, height * 0.5);
  const inside = { top: TOP, bottom: height - TOP, wide };
  const tall = inside.bottom - inside.top;
  const surface = inside.bottom - level * tall;
  const limitY = limit && inside.bottom - limit.fraction * tall;
  const left = wide + 26;
  return (
    <Picture
      kind="vessel"
      id={id}
      title={title}
      description={vesselDescription(props)}
      width={width}
      height={height}
    >
      <Fillings id={id} />
      <clipPath id={`${id}-inside`}>
        <rect x={2} y={inside.top} width={wide} height={tall} rx={ROUND} />
      </clipPath>
      <g clip-path={`url(#${id}-inside)`}>
        <rect class="pic-liquid" x={2} y={px(surface)} width={wide} height={px(level * tall)} />
        {level > 0 && level < 1 && (
          <line class="pic-surface" x1={2} x2={wide + 2} y1={px(surface)} y2={px(surface)} />
        )}
      </g>
      <rect class="pic-shell" x={2} y={inside.top} width={wide} height={tall} rx={ROUND} />
      {limit && <Limit limit={limit} y={limitY ?? 0} wide={wide} />}
      <text
        class="pic-number pic-over"
        x={2 + wide / 2}
        y={px(levelText(surface, inside, limitY))}
        font-size="15"
        text-anchor="middle"
      >
        {percentText(level)}
      </text>
      {vapour && (
        <PhaseText
          {...{ id, props, phase: vapour, left }}
          name="Vapour"
          top={TOP}
          lead={{ x: wide, y: (inside.top + Math.min(surface, inside.bottom)) / 2 }}
        />
      )}
      {liquid && (
        <PhaseText
          {...{ id, props, phase: liquid, left }}
          name="Liquid"
          top={height / 2 + 6}
          lead={{ x: wide, y: (surface + inside.bottom) / 2 }}
        />
      )}
    </Picture>
  );
}

/** The level's figure stands above the surface, else below it: never on the limit's name, never outside. */
function levelText(
  surface: number,
  { top, bottom }: { top: number; bottom: number },
  limit: number | undefined,
): number {
  const above = surface - 7;
  const touches = limit !== undefined && Math.abs(above - (limit - 4)) < 18;
  if (above - 14 > top && !touches) return Math.min(above, bottom - 8);
  const below = Math.max(surface, limit ?? surface) + 20;
  return below < bottom - 4 ? below : Math.min(surface, limit ?? surface) - 22;
}

function Limit({ limit, y, wide }: { limit: { name: string }; y: number; wide: number }) {
  return (
    <g>
      <line class="pic-limit" x1={2} x2={wide + 2} y1={px(y)} y2={px(y)} />
      <text class="pic-limit-name pic-over" x={8} y={px(y - 4)} font-size={TEXT}>
        {limit.name}
      </text>
    </g>
  );
}

interface PhaseTextProps {
  readonly id: string;
  readonly props: VesselPictureProps;
  readonly phase: VesselPhase;
  readonly name: string;
  readonly left: number;
  readonly top: number;
  readonly lead: { readonly x: number; readonly y: number };
}

/** A phase beside the vessel: its name, its mass, its parts as one bar. */
function PhaseText({ id, props, phase, name, left, top, lead }: PhaseTextProps) {
  const { width } = props;
  return (
    <g>
      <path
        class="pic-axis-line pic-pointer"
        d={`M${px(lead.x - 6)} ${px(lead.y)}H${left - 14}L${left - 6} ${px(top + 9)}`}
      />
      <text class="pic-name" x={left} y={px(top + 13)} font-size="13">
        {name} <tspan class="pic-unit">{percentText(phase.share)} of the mass</tspan>
      </text>
      <CompositionBar
        id={id}
        shares={phase.composition}
        x={left}
        y={px(top + 22)}
        width={width - left - 1}
      />
    </g>
  );
}

export function vesselDescription(props: VesselPictureProps): string {
  const { p, shownP, liquidVolumeFraction: level, liquid, vapour, limit } = props;
  const said = (name: string, phase: VesselPhase | undefined): string =>
    phase
      ? `${name}: ${percentText(phase.share)} of the mass, ${compositionText(phase.composition)}.`
      : "";
  return [
    `Pressure ${shownP.text(p)}.`,
    level === 0
      ? "All of it is vapour."
      : level === 1
        ? "It is full of liquid."
        : `Liquid fills ${percentText(level)} of the volume.`,
    said("Liquid", liquid),
    said("Vapour", vapour),
    limit ? `${limit.name} at ${percentText(limit.fraction)} of the volume.` : "",
  ]
    .filter((text) => text !== "")
    .join(" ");
}

/** The numbers behind the picture. */
export function vesselTable(props: VesselPictureProps): PictureTable {
  const { shownP, liquid, vapour } = props;
  const row = (name: string, phase: VesselPhase | undefined): string[][] =>
    phase ? [[name, percentText(phase.share), compositionText(phase.composition)]] : [];
  return {
    caption: `${props.title}. Pressure ${shownP.text(props.p)}; liquid fills ${percentText(props.liquidVolumeFraction)} of the volume.`,
    head: ["Phase", "Of the mass", "Made of, by mass"],
    rows: [...row("Liquid", liquid), ...row("Vapour", vapour)],
  };
}
