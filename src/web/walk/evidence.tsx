import { useId } from "preact/hooks";
import { MassColumns, readingName, unitChoice } from "../../report/index.ts";
import {
  type Entry,
  type ReadingView,
  type StageView,
  type TraceView,
  type TrialView,
} from "../../trial/index.ts";
import { ClosureList } from "../ledger/closure-list.tsx";
import { EntryRow } from "../log/entry-row.tsx";
import { Fit } from "../look/fit.tsx";
import { judging } from "../readings/judging.ts";
import { VerdictPanel } from "../readings/verdict-panel.tsx";
import { looksFurther } from "../shell/first-look.ts";
import { view } from "../shell/log-keeper.ts";
import { later } from "../shell/later.tsx";
import { pathTo } from "../shell/route.ts";
import { RunFigures } from "../traces/run-figures.tsx";
import { TracePicture } from "../traces/trace-picture.tsx";
import { stageParts } from "./stage-key.ts";

const ReportPreview = later(async () => {
  const { ReportPreview: Part } = await import("../publish/report-preview.tsx");
  return Part;
});

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  /** What is being done: on a phone the evidence waits behind it. */
  readonly step: readonly string[];
}

/** What the log already holds about this stage: verdicts, pictures, masses, entries. */
export function Evidence(props: Props) {
  return (
    <aside
      class={props.step.length > 0 ? "evidence is-behind" : "evidence"}
      aria-label="Evidence of this stage"
    >
      <h2 class="evidence-title">Evidence so far</h2>
      {looksFurther.value ? <Held {...props} /> : <p class="quiet">Reading what it holds…</p>}
    </aside>
  );
}

function Held({ trial, stage, step }: Props) {
  const seen = view.value;
  const here = (where: { stage: string; round?: string | undefined }): boolean =>
    where.stage === stage.stage && where.round === stage.round;
  const readings = seen.readings.filter(here);
  // A file that is looked into stands in the walk already.
  const traces = seen.traces.filter((trace) => here(trace) && !step.includes(trace.id));
  const runs = seen.runs.filter(here);
  const entries = seen.entries.filter((entry) =>
    "stage" in entry.body
      ? here(entry.body)
      : stage.stage === "plan" && entry.type !== "samples-received",
  );
  return (
    <>
      {entries.length === 0 && <p class="empty">{emptyWords(stage)}</p>}
      {stage.stage === "publish" && step.length === 0 && <ReportPreview trial={trial} />}
      {readings.length > 0 && <Readings readings={readings} view={seen} />}
      {traces.map((trace) => (
        <Trace key={trace.id} trial={trial} stage={stage} trace={trace} />
      ))}
      {runs.map((run) => (
        <section class="sheet" key={run.id}>
          <RunFigures run={run} view={seen} />
        </section>
      ))}
      {stage.stage === "publish" && (
        <section class="sheet">
          <h3>Does the ledger close?</h3>
          <ClosureList ledger={seen.ledger} />
        </section>
      )}
      {seen.ledger.postings.length + seen.vessels.length > 0 && (
        <Masses view={seen} trial={trial} />
      )}
      {entries.length > 0 && <Entries trial={trial} entries={entries} />}
    </>
  );
}

interface TraceProps {
  readonly trial: string;
  readonly stage: StageView;
  readonly trace: TraceView;
}

const Trace = ({ trial, stage, trace }: TraceProps) => (
  <section class="sheet">
    <TracePicture trace={trace} view={view.value} />
    <a class="button" href={pathTo("trial", trial, ...stageParts(stage), "trace", trace.id)}>
      Look into this file
    </a>
  </section>
);

interface EntriesProps {
  readonly trial: string;
  readonly entries: readonly Entry[];
}

/** Drawn beside a stage; the log has them all. */
const most = 200;

const Entries = ({ trial, entries }: EntriesProps) => (
  <section class="sheet">
    <h3>Entries of this stage</h3>
    {entries.length > most && (
      <p>
        The last {most} of {entries.length}; <a href={pathTo("trial", trial, "log")}>the log</a> has
        them all.
      </p>
    )}
    <ol class="entries">
      {entries.slice(-most).map((entry) => (
        <EntryRow key={entry.id} trial={trial} view={view.value} entry={entry} />
      ))}
    </ol>
  </section>
);

const emptyWords = ({ prompts }: StageView): string =>
  prompts.length > 0
    ? "Nothing in the log for this stage yet. The first reading appears here with its verdict."
    : "Nothing was entered at this stage itself; it draws on the others.";

/** Readings of the stage with their verdicts; those that nothing can judge stand as plain figures. */
function Readings({
  readings,
  view: seen,
}: {
  readonly readings: readonly ReadingView[];
  readonly view: TrialView;
}) {
  const judge = judging.value;
  const judged = readings.slice(-most).map((reading) => ({
    reading,
    verdict: judge?.judgeReading(seen, reading),
  }));
  return (
    <section class="sheet">
      <h3>Readings</h3>
      {judged.map(({ reading, verdict }) =>
        verdict ? (
          <VerdictPanel
            key={reading.id}
            verdict={verdict}
            typed={reading.typed}
            atmosphere={seen.atmosphere.value}
            title={titleOf(seen, reading)}
            quantity={reading.quantity}
            compact
          />
        ) : null,
      )}
      <PlainReadings
        readings={judged.filter(({ verdict }) => !verdict).map(({ reading }) => reading)}
        view={seen}
      />
    </section>
  );
}

/** The reading's name, with the vessel or the run it is about. */
function titleOf(
  { vessels, runs }: TrialView,
  { quantity, form, vessel, run }: ReadingView,
): string {
  const about = vessels.find(({ id }) => id === vessel) ?? runs.find(({ id }) => id === run);
  const name = readingName(quantity, form);
  return about ? `${name}, ${about.name}` : name;
}

function PlainReadings({
  readings,
  view: seen,
}: {
  readonly readings: readonly ReadingView[];
  readonly view: TrialView;
}) {
  const units = unitChoice(seen, "as-typed");
  if (readings.length === 0) return null;
  return (
    <dl class="plain-readings">
      {readings.map((reading) => (
        <div key={reading.id}>
          <dt>{titleOf(seen, reading)}</dt>
          <dd class="figure">
            {reading.u === undefined
              ? units.quantity(reading.quantity, reading.typed.unit).text(reading.value)
              : units
                  .quantity(reading.quantity, reading.typed.unit)
                  .pair({ value: reading.value, u: reading.u })}
          </dd>
        </div>
      ))}
    </dl>
  );
}

function Masses({ view: seen, trial }: { readonly view: TrialView; readonly trial: string }) {
  const id = `masses${useId()}`;
  return (
    <section class="sheet">
      <Fit>
        {(width) => (
          <MassColumns
            id={id}
            title="Where every gram is now"
            ledger={seen.ledger}
            shown={unitChoice(seen, "as-typed").thing("small-mass")}
            width={width}
          />
        )}
      </Fit>
      <a class="button" href={pathTo("trial", trial, "grams")}>
        Step through the ledger
      </a>
    </section>
  );
}
