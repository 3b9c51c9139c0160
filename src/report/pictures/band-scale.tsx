import { scaleLinear, scaleLog, type ScaleContinuousNumeric } from "d3-scale";
import type { Measured } from "../../trial/index.ts";
import { COVERAGE_95, type Shown } from "../shown.ts";
import { HorizontalAxis, TEXT } from "./axis.tsx";
import { Drawing, type PictureTable } from "./picture.tsx";
import { clampedCentre, px, textWidth } from "./text-room.ts";
import { type VerdictKind, VerdictMark, VerdictWord } from "./verdict-mark.tsx";

export interface BandScaleProps {
  /** Unique on the page. */
  readonly id: string;
  /** What is read, or what the reading says. */
  readonly title: string;
  readonly shown: Shown;
  /** 95 % interval in which the reading should fall, SI; absent when nothing can give one. */
  readonly band?: { readonly from: number; readonly to: number; readonly expected?: number };
  /** SI, with the standard uncertainty; absent before anything was read. */
  readonly reading?: Measured;
  /** The reading as it was typed, when its own digits should stand. */
  readonly readingText?: string;
  readonly verdict?: { readonly kind: VerdictKind; readonly word: string };
  /** What the band is called; "95 % band" unless told. */
  readonly bandName?: string;
  /** Ends of the scale, SI; chosen from the band and the reading unless told. */
  readonly domain?: readonly [number, number];
  /** A log scale for what spans decades, such as a vacuum; only units that count from zero can have one. */
  readonly log?: boolean;
  readonly width: number;
  /** For lists: smaller block, same text size. */
  readonly compact?: boolean;
}

/** The device: a reading against its band. */
export function BandScale(props: BandScaleProps) {
  const { id, title, reading, shown, verdict, readingText } = props;
  return (
    <figure class={classOf(props)}>
      <figcaption class="band-head">
        <span class="pic-title">{title}</span>
        <span class="band-value">
          {readingText ?? (reading ? shown.pair(reading) : "not read yet")}
        </span>
        {verdict && <VerdictWord kind={verdict.kind} word={verdict.word} />}
      </figcaption>
      {(props.band ?? reading) && (
        <Drawing
          id={id}
          title={`${title}${verdict ? `: ${verdict.word}` : ""}`}
          description={bandDescription(props)}
          width={props.width}
          height={heightsOf(props).total}
        >
          <Scale {...props} />
        </Drawing>
      )}
    </figure>
  );
}

const classOf = ({ compact, width }: BandScaleProps): string =>
  ["pic pic-band", compact === true ? "pic-compact" : "", width < 480 ? "pic-narrow" : ""]
    .filter((name) => name !== "")
    .join(" ");

function heightsOf({ compact, band }: BandScaleProps) {
  const label = band ? 17 : 4;
  const block = compact === true ? 18 : 28;
  const axis = label + block + 5;
  return { label, block, axis, total: axis + 22 };
}

function Scale(props: BandScaleProps) {
  const { shown, band, reading, verdict, width } = props;
  const { label, block, axis } = heightsOf(props);
  const scale = scaleOf(props);
  const [least] = scale.domain() as [number, number];
  // A log scale has no zero: what lies at or below its end stands at the end.
  const x = (si: number): number =>
    scale(isLog(props) ? Math.max(shown.value(si), least) : shown.value(si));
  const middle = label + block / 2;
  return (
    <>
      <HorizontalAxis scale={scale} y={axis} right={width} unit={shown.label} gridTo={label} />
      {band && <Band props={props} x={x} top={label} height={block} />}
      {reading && <Whisker reading={reading} x={x} y={middle} />}
      {reading && (
        <VerdictMark
          kind={verdict?.kind ?? "undecided"}
          x={x(reading.value)}
          y={middle}
          r={props.compact === true ? 6 : 8}
        />
      )}
    </>
  );
}

/** Narrower than this a band would be taken for a line. */
const THINNEST_BAND = 3;

interface BandDrawing {
  readonly props: BandScaleProps;
  readonly x: (si: number) => number;
  readonly top: number;
  readonly height: number;
}

function Band({ props, x, top, height }: BandDrawing) {
  const { band, width } = props;
  if (!band) return null;
  const from = isOpenBelow(props) ? 0 : x(band.from);
  const [a, b] = [from, x(band.to)].sort((m, n) => m - n) as [number, number];
  const centre = (a + b) / 2;
  const wide = Math.max(b - a, THINNEST_BAND);
  const text = bandLabel(props);
  return (
    <g>
      <rect
        class="pic-band-block"
        x={px(centre - wide / 2)}
        y={top}
        width={px(wide)}
        height={height}
      />
      {band.expected !== undefined && (
        <line
          class="pic-expected"
          x1={px(x(band.expected))}
          x2={px(x(band.expected))}
          y1={top}
          y2={top + height}
        />
      )}
      <text
        class="pic-label"
        x={px(clampedCentre(centre, textWidth(text, TEXT), 0, width))}
        y={top - 5}
        font-size={TEXT}
        text-anchor="middle"
      >
        {text}
      </text>
    </g>
  );
}

export function Whisker({
  reading,
  x,
  y,
}: {
  reading: Measured;
  x: (si: number) => number;
  y: number;
}) {
  const half = COVERAGE_95 * reading.u;
  if (!(half > 0)) return null;
  const [a, b] = [px(x(reading.value - half)), px(x(reading.value + half))];
  return (
    <path class="pic-whisker" d={`M${a} ${y - 4}V${y + 4}M${a} ${y}H${b}M${b} ${y - 4}V${y + 4}`} />
  );
}

/** Part of the span that stays free on either side. */
const AIR = 0.14;

function scaleOf(props: BandScaleProps): ScaleContinuousNumeric<number, number> {
  const { shown, width } = props;
  const [low, high] = domainOf(props);
  const margin = 14;
  const range: [number, number] = [margin, width - margin];
  return isLog(props)
    ? scaleLog<number, number>().domain([low, high]).range(range)
    : scaleLinear<number, number>()
        .domain([low, high])
        .range(shown.value(1e5) > shown.value(2e5) ? [...range].reverse() : range);
}

/** Gauge and vacuum units count from the air, so their numbers have no logarithm that means anything. */
const isLog = ({ log, shown }: BandScaleProps): boolean => log === true && shown.value(0) === 0;

/** A band from nothing upwards, on a scale that has no nothing. */
const isOpenBelow = (props: BandScaleProps): boolean =>
  isLog(props) && props.band !== undefined && props.band.from <= 0;

/** How far below an open band's end a log scale reaches. */
const OPEN_DECADES = 100;

function logDomain(ends: readonly number[], high: number): [number, number] {
  const least = Math.min(...ends.filter((end) => end > 0), high / OPEN_DECADES);
  return [least / 1.6, high * 1.6];
}

/** In the shown unit: everything that is drawn, with some air around it. */
function domainOf(props: BandScaleProps): [number, number] {
  const { band, reading, domain, shown } = props;
  const half = reading ? COVERAGE_95 * reading.u : 0;
  const ends = domain ?? [
    ...(band ? [band.from, band.to] : []),
    ...(band?.expected !== undefined ? [band.expected] : []),
    ...(reading ? [reading.value - half, reading.value + half] : []),
  ];
  const shownEnds = ends.map(shown.value);
  const [low, high] = [Math.min(...shownEnds), Math.max(...shownEnds)];
  if (domain) return [low, high];
  if (isLog(props) && high > 0) return logDomain(shownEnds, high);
  const span = high - low || Math.max(Math.abs(high) * 0.1, 1);
  return [low - span * AIR, high + span * AIR];
}

function bandTexts(props: BandScaleProps): { from: string; to: string } | undefined {
  const { band, shown } = props;
  if (!band) return undefined;
  // An open band has no width that would say how sharp its end is.
  if (isOpenBelow(props)) return { from: shown.text(0), to: shown.text(band.to) };
  // The band's own width says how many of its digits mean anything.
  const u = Math.abs(band.to - band.from) / (2 * COVERAGE_95);
  return { from: shown.text(band.from, u), to: shown.text(band.to, u) };
}

const withoutUnit = (text: string, label: string): string =>
  label !== "" && text.endsWith(label) ? text.slice(0, -label.length).trimEnd() : text;

function bandLabel(props: BandScaleProps): string {
  const texts = bandTexts(props);
  if (!texts) return "";
  const name = props.bandName ?? "95 % band";
  if (isOpenBelow(props)) return `${name} below ${texts.to}`;
  return `${name} ${withoutUnit(texts.from, props.shown.label)} to ${texts.to}`;
}

/** The picture in a sentence or three: for those who hear it. */
export function bandDescription(props: BandScaleProps): string {
  const { band, reading, shown, verdict } = props;
  const texts = bandTexts(props);
  const parts = [
    reading
      ? `Reading ${props.readingText ?? shown.pair(reading)}, with its 95 % interval.`
      : "Nothing read yet.",
    texts
      ? isOpenBelow(props)
        ? `${bandLabel(props)}.`
        : `${props.bandName ?? "95 % band"}: ${texts.from} to ${texts.to}.`
      : "No band can be given.",
  ];
  if (band?.expected !== undefined) parts.push(`Expected ${shown.text(band.expected)}.`);
  if (verdict) parts.push(`Verdict: ${verdict.word}.`);
  return parts.join(" ");
}

/** The numbers of one device, as a table. */
export function bandTable(props: BandScaleProps): PictureTable {
  const texts = bandTexts(props);
  const { reading, band, shown } = props;
  return {
    caption: props.title,
    head: ["What", "Value"],
    rows: [
      ["Reading", props.readingText ?? (reading ? shown.pair(reading) : "not read yet")],
      ["Band", texts ? `${texts.from} to ${texts.to}` : "none"],
      ...(band?.expected !== undefined ? [["Expected", shown.text(band.expected)]] : []),
      ["Verdict", props.verdict?.word ?? "undecided"],
    ],
  };
}
