import type { ComponentChildren } from "preact";
import type { DiagnosisResult } from "../../calculations/index.ts";
import { BandScale } from "../pictures/band-scale.tsx";
import { VerdictWord } from "../pictures/verdict-mark.tsx";
import {
  chanceText,
  type DiagnosedFault,
  type DiagnosedReading,
  diagnosedNames,
  type DiagnosisUnits,
  informationText,
  minutesText,
  namedVerdict,
  readingVerdict,
  runSummary,
  severityText,
  shownFor,
  signsText,
} from "./diagnosis-words.ts";

export interface DiagnosisProps {
  /** Unique on the page. */
  readonly id: string;
  readonly result: DiagnosisResult;
  readonly units: DiagnosisUnits;
  /** Puts a drawing into the width there is. */
  readonly fit: (
    id: string,
    draw: (id: string, width: number) => ComponentChildren,
  ) => ComponentChildren;
  /** What must be read before the next reading is taken: below the verdict. */
  readonly atHand?: ComponentChildren;
}

/** Hypotheses below this chance are counted, not listed. */
const listed = 0.02;
/** Readings worth taking next that are shown. */
const shownNext = 4;

/** What is wrong: what may be said, what speaks for it, and what to read next. */
export function DiagnosisView({ id, result, units, fit, atHand }: DiagnosisProps) {
  const { kind, word } = namedVerdict(result);
  const likely = result.faults.filter(({ probability }) => probability >= listed);
  const rest = result.faults.length - likely.length;
  const [settled] = result.faults.filter(({ name }) => name !== "none");
  const accused = result.named === "healthy" ? undefined : settled;
  return (
    <div class="diagnosis">
      <p class="diagnosis-finding">
        <VerdictWord kind={kind} word={word} /> <span>{result.sentence}</span>
      </p>
      {atHand}
      <h3>What these readings leave</h3>
      <ol class="diagnosis-faults">
        {likely.map((fault) => (
          <FaultRow key={fault.name} fault={fault} result={result} units={units} />
        ))}
      </ol>
      {rest > 0 && <p class="quiet">{rest} others under 2 % each.</p>}
      {accused && accused.settles !== "" && (
        <p>
          <strong>What settles it.</strong> {accused.settles}
        </p>
      )}
      <Next result={result} units={units} />
      <h3>Readings against a sound vehicle</h3>
      {result.runs.map((name, run) => (
        <RunBands key={run} {...{ id, result, run, units, fit }} name={name} />
      ))}
      {result.notes.length > 0 && (
        <ul class="diagnosis-notes" aria-label="Notes">
          {result.notes.map(({ code, text }) => (
            <li key={code}>{text}</li>
          ))}
        </ul>
      )}
    </div>
  );
}

interface FaultRowProps {
  readonly fault: DiagnosedFault;
  readonly result: DiagnosisResult;
  readonly units: DiagnosisUnits;
}

function FaultRow({ fault, result, units }: FaultRowProps) {
  const { name, title, probability } = fault;
  const severity = severityText(fault, units);
  const [other] = result.substitutes;
  return (
    <li>
      <span class="diagnosis-head">
        <strong>{title}</strong> <span class="figure">{chanceText(probability)}</span>
      </span>
      {/* A drawing, because a page from the server allows no style of an element's own. */}
      <svg class="diagnosis-bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
        <rect width={Math.max(0.5, 100 * probability).toFixed(1)} height="8" />
      </svg>
      {severity !== undefined && <span class="diagnosis-line">If so: {severity}.</span>}
      {name === "wrong-refrigerant" && other && (
        <span class="diagnosis-line">
          Of the few fluids tried, {other.name} comes closest: no identification.
        </span>
      )}
      {name !== "none" && (
        <span class="diagnosis-line">{signsText(fault, result.runs.length)}</span>
      )}
    </li>
  );
}

function Next({ result, units }: Pick<DiagnosisProps, "result" | "units">) {
  const titles = new Map(result.faults.map(({ name, title }) => [name, title]));
  const two = result.leading.map((name) => (titles.get(name) ?? name).toLowerCase()).join(" and ");
  if (result.next.length === 0) {
    return (
      <>
        <h3>What to read next</h3>
        <p>No further reading of this list would help much to tell {two} apart.</p>
      </>
    );
  }
  return (
    <>
      <h3>What to read next</h3>
      <p class="quiet">To tell {two} apart, the cheapest of the good ones first.</p>
      <ol class="diagnosis-next">
        {result.next
          .slice(0, shownNext)
          .map(({ reading, where, run, says, minutes, information, expected }) => (
            <li key={`${reading} ${where} ${run ?? ""}`}>
              <strong>{says}</strong>: {informationText(information)}, takes {minutesText(minutes)}.{" "}
              <span class="diagnosis-line">
                {expected
                  .map(({ fault, value, sd }) => {
                    const text = shownFor(reading, units).text(value, sd).replace(/^\+/, "");
                    return `${titles.get(fault) ?? fault}: about ${text}`;
                  })
                  .join("; ")}
                .
              </span>
            </li>
          ))}
      </ol>
    </>
  );
}

interface RunBandsProps extends DiagnosisProps {
  /** Place of the run among the runs, and its name. */
  readonly run: number;
  readonly name: string;
}

/** The readings of one run; of several each is folded while nothing in it is unlike a sound vehicle. */
function RunBands({ id, result, run, name, units, fit }: RunBandsProps) {
  const own = result.readings.filter((reading) => reading.run === run);
  const bands = own.map((reading) => (
    <ReadingBand key={reading.reading} {...{ id: `${id}-${run}`, reading, units, fit }} />
  ));
  if (result.runs.length < 2) return <div class="diagnosis-bands">{bands}</div>;
  const off = own.some((reading) => readingVerdict(reading).kind !== "within");
  return (
    <details class="diagnosis-run" open={off}>
      <summary>
        <span>
          Run {run + 1}: {name}
          <small class="diagnosis-line">{runSummary(own)}</small>
        </span>
      </summary>
      <div class="diagnosis-bands">{bands}</div>
    </details>
  );
}

interface ReadingBandProps {
  readonly id: string;
  readonly reading: DiagnosedReading;
  readonly units: DiagnosisUnits;
  readonly fit: DiagnosisProps["fit"];
}

function ReadingBand({ id, reading, units, fit }: ReadingBandProps) {
  const name = reading.reading;
  return (
    <>
      {fit(`${id}-${name}`, (own, width) => (
        <BandScale
          id={own}
          title={diagnosedNames[name]}
          shown={shownFor(name, units)}
          band={{ ...reading.band, expected: reading.expected }}
          bandName="Sound vehicles, 95 %"
          reading={{ value: reading.value, u: reading.u }}
          verdict={readingVerdict(reading)}
          width={width}
          compact
        />
      ))}
    </>
  );
}
