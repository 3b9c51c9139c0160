import { useId } from "preact/hooks";
import { MassColumns, unitChoice } from "../../report/index.ts";
import type { Entry, StageView, TrialView } from "../../trial/index.ts";
import { ClosureFold } from "../ledger/closure-list.tsx";
import { EntryRow } from "../log/entry-row.tsx";
import { Fit } from "../look/fit.tsx";
import { Fold } from "../look/fold.tsx";
import { isWide } from "../look/is-wide.ts";
import { looksFurther } from "../shell/first-look.ts";
import { view } from "../shell/log-keeper.ts";
import { later } from "../shell/later.tsx";
import { pathTo } from "../shell/route.ts";
import { RunFold } from "../traces/run-figures.tsx";
import { TraceFold } from "../traces/trace-fold.tsx";
import { HeldReadings } from "./held-readings.tsx";
import { most } from "./most.ts";

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

/** So many stand open at a desk; of more, each waits behind what it found. */
const few = 2;
const fewEntries = 12;

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
      {readings.length > 0 && <HeldReadings readings={readings} view={seen} />}
      {traces.length > 0 && (
        <section class="sheet fold-rows">
          <h3>Logger files</h3>
          {traces.map((trace) => (
            <TraceFold
              key={trace.id}
              {...{ trial, stage, trace, view: seen }}
              open={isWide() && traces.length <= few}
            />
          ))}
        </section>
      )}
      {runs.length > 0 && (
        <section class="sheet fold-rows">
          <h3>Runs</h3>
          {runs.map((run) => (
            <RunFold key={run.id} run={run} view={seen} open={isWide() && runs.length <= few} />
          ))}
        </section>
      )}
      {stage.stage === "publish" && <ClosureFold ledger={seen.ledger} />}
      {seen.ledger.postings.length + seen.vessels.length > 0 && (
        <Masses view={seen} trial={trial} />
      )}
      {entries.length > 0 && <Entries trial={trial} entries={entries} />}
    </>
  );
}

interface EntriesProps {
  readonly trial: string;
  readonly entries: readonly Entry[];
}

const Entries = ({ trial, entries }: EntriesProps) => (
  <Fold
    title={`Entries of this stage (${entries.length})`}
    open={isWide() && entries.length <= fewEntries}
  >
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
  </Fold>
);

const emptyWords = ({ prompts }: StageView): string =>
  prompts.length > 0
    ? "Nothing in the log for this stage yet. The first reading appears here with its verdict."
    : "Nothing was entered at this stage itself; it draws on the others.";

function Masses({ view: seen, trial }: { readonly view: TrialView; readonly trial: string }) {
  const id = `masses${useId()}`;
  const shown = unitChoice(seen, "as-typed").thing("small-mass");
  const apart = seen.ledger.accounts.filter(
    ({ kind }) => kind === "lost" || kind === "unaccounted",
  );
  return (
    <Fold
      title="Where every gram is now"
      said={apart.map(({ id: key, name, mass }) => (
        <span key={key} class="figure">
          {name} {shown.pair(mass)}
        </span>
      ))}
    >
      <Fit>
        {(width) => (
          <MassColumns
            id={id}
            title="In each vessel"
            ledger={seen.ledger}
            shown={shown}
            width={width}
          />
        )}
      </Fit>
      <a class="button" href={pathTo("trial", trial, "grams")}>
        Step through the ledger
      </a>
    </Fold>
  );
}
