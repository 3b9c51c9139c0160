import type { Answer } from "../../calculations/index.ts";
import {
  LeakChart,
  type LeakChartProps,
  leakTable,
  type Shown,
  shownIn,
  standsIn,
  type UnitChoice,
  VerdictWord,
} from "../../report/index.ts";
import { Basis, Figure, Figures, noteWith } from "../fluids/said.tsx";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import type { LeakBoardCase } from "./leak-case.ts";
import type { LeakFound } from "./leak-result.ts";

interface Props {
  readonly asked: LeakBoardCase;
  /** Blower off, so in a layer; on, so stirred. */
  readonly layer: LeakFound;
  readonly stirred: LeakFound;
  readonly answers: readonly Answer[];
  readonly current: boolean;
  readonly units: UnitChoice;
}

const minutes = (value: number | null, clears: boolean | null): string => {
  if (value === 0) return "never";
  if (value === null) return clears === null ? "not known" : "does not clear";
  return value < 100 ? `${value.toPrecision(2)} min` : `${(value / 60).toFixed(1)} h`;
};
/** Two or three digits: limits are not known better. */
const about = (shown: Shown, kg: number): string => shown.text(kg, 0.05 * kg);
const times = (ratio: number): string =>
  ratio < 9.95 ? `${ratio.toFixed(1)} times` : `${ratio.toFixed(0)} times`;

/** The answer as a word and a sentence. */
export function LeakFinding({ asked, layer, stirred, units }: Omit<Props, "answers" | "current">) {
  const { kind, word, sentence } = findingOf(asked, shownOf(asked, layer, stirred), units);
  return (
    <div class="hazard-finding" role="status">
      <VerdictWord kind={kind} word={word} />
      <p>{sentence}</p>
    </div>
  );
}

const shownOf = ({ blower }: LeakBoardCase, layer: LeakFound, stirred: LeakFound): LeakFound =>
  blower === "off" ? layer : stirred;

/** Its figures, the picture, and what it rests on. */
export const LeakShows = ({ asked, layer, stirred, answers, current, units }: Props) => (
  <div class="hazard-shows">
    <LeakFigures shown={shownOf(asked, layer, stirred)} {...{ current, units }} />
    <Chart {...{ asked, layer, stirred, answers }} />
    <Basis answers={answers} />
  </div>
);

interface FiguresProps {
  readonly shown: LeakFound;
  readonly current: boolean;
  readonly units: UnitChoice;
}

function LeakFigures({ shown, current, units }: FiguresProps) {
  const { clears, breathing, safeMass, safeToBreathe, overLFL } = shown;
  const mass = units.thing("small-mass");
  const rcl = breathing.find(({ what }) => what === "RCL");
  const carbon = carbonOf(shown);
  return (
    <Figures stale={!current}>
      <Figure
        label="Peak"
        value={`${shown.peakVolumePercent.toPrecision(2)} % by volume`}
        small={shownIn("g/m3").text(shown.peak)}
      />
      {overLFL !== null && (
        <>
          <Figure
            label="Would burn for"
            value={minutes(shown.minutesAboveLFL, clears)}
            small={`${times(overLFL)} the lower limit`}
          />
          <Figure
            label="Above a quarter of the limit"
            value={minutes(shown.minutesAboveQuarterLFL, clears)}
          />
          <Figure
            label="Mass that stays below a quarter"
            value={safeMass === null ? "any" : about(mass, safeMass)}
          />
        </>
      )}
      {rcl && (
        <Figure
          label="Against the limit for lungs (RCL)"
          value={times(rcl.ratio)}
          small={
            safeToBreathe === null ? undefined : `${about(mass, safeToBreathe)} would stay below`
          }
        />
      )}
      <Figure label="Oxygen left at the peak" value={`${shown.oxygenPercent.toFixed(1)} %`} />
      <Figure
        label="Warms as much as carbon dioxide of"
        value={carbon[0] ?? "not known"}
        small={carbon.slice(1).join(", ")}
      />
    </Figures>
  );
}

const carbonOf = ({ co2Equivalent }: LeakFound): readonly string[] =>
  co2Equivalent.map(({ edition, mass }) =>
    mass === null ? `${edition}: no figure` : `${edition}: ${Number(mass.toPrecision(3))} kg`,
  );

function findingOf(asked: LeakBoardCase, shown: LeakFound, units: UnitChoice) {
  const { place, blower, subject, substance } = asked;
  const where = `${place === "bay" ? "in the bay" : "in the cabin"}${blower === "off" ? ", in a layer at the floor," : ""}`;
  const guessed = standsIn(subject);
  const name = guessed ? `${subject.name}, taken as ${substance},` : subject.name;
  const { overLFL, burns, breathing, safeMass } = shown;
  if (overLFL !== null) {
    const safe =
      safeMass === null
        ? ""
        : ` At most ${about(units.thing("small-mass"), safeMass)} would stay below a quarter of it.`;
    if (overLFL >= 1) {
      const sentence = `${name} would stand ${where} at ${times(overLFL)} the concentration from which it burns.${safe}`;
      return { kind: "higher", word: guessed ? "could burn" : "would burn", sentence } as const;
    }
    const sentence = `${name} would reach ${(100 * overLFL).toFixed(0)} % of the concentration from which it burns ${where.replace(/,$/u, "")}.${safe} Near the leak it is richer.`;
    return overLFL > 0.25
      ? ({ kind: "higher", word: "above a quarter of the limit", sentence } as const)
      : ({ kind: "within", word: "below a quarter of the limit", sentence } as const);
  }
  if (burns !== "no") {
    const sentence = `Whether ${shown.name} would burn ${where.replace(/,$/u, "")} is not known: only a test of this composition counts. Treat it as burning.`;
    return { kind: "undecided", word: "undecided", sentence } as const;
  }
  const rcl = breathing.find(({ what }) => what === "RCL");
  const above = rcl !== undefined && rcl.ratio > 1;
  return {
    kind: rcl === undefined ? "undecided" : above ? "higher" : "within",
    word:
      rcl === undefined
        ? "undecided"
        : above
          ? "above the limit for lungs"
          : "below the limit for lungs",
    sentence: `${shown.name} does not burn in open air. ${
      rcl === undefined
        ? "No limit for lungs that may be used is known here."
        : `It would stand ${where} at ${times(rcl.ratio)} the limit for occupied rooms.`
    } In a flame or on glowing metal it gives poisons.`,
  } as const;
}

type ChartProps = Pick<Props, "asked" | "layer" | "stirred" | "answers">;

/** What the picture shows, of both ways of mixing. */
function titleOf({ subject }: LeakBoardCase, layer: LeakFound, stirred: LeakFound): string {
  if (layer.overLFL !== null && stirred.overLFL !== null) {
    return `${subject.name} peaks at ${times(layer.overLFL)} the limit at the floor, at ${times(stirred.overLFL)} in stirred air`;
  }
  const percent = ({ peakVolumePercent }: LeakFound): string => peakVolumePercent.toPrecision(2);
  return `${subject.name} peaks at ${percent(layer)} % of the air at the floor, at ${percent(stirred)} % in stirred air`;
}

function Chart({ asked, layer, stirred, answers }: ChartProps) {
  const rcl = layer.breathing.find(({ what }) => what === "RCL");
  const limit = rcl && (layer.peak / layer.peakVolumePercent) * rcl.volumePercent;
  const props: Omit<LeakChartProps, "width"> = {
    id: "hazards-leak",
    title: titleOf(asked, layer, stirred),
    shown: shownIn("g/m3"),
    lines: [
      { name: "at the floor", points: layer.series },
      { name: "stirred", points: stirred.series },
    ],
    ...(layer.lfl !== null && { lfl: layer.lfl }),
    ...(layer.lfl === null &&
      limit !== undefined && { breathing: { limit, name: "limit, lungs" } }),
    log: layer.lfl !== null,
  };
  return (
    <PictureSheet
      title={props.title}
      note={noteWith(
        "Coldproof. Mass balance of stirred air and of a layer at the floor, as assumed; nothing was released.",
        answers,
      )}
      table={leakTable({ ...props, width: 0 })}
      draw={(width, height) => (
        <LeakChart {...props} width={width} {...(height !== undefined && { height })} />
      )}
    />
  );
}
