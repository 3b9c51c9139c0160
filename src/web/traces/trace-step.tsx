import type { IntervalProposal, RunView, StageView, TraceView } from "../../trial/index.ts";
import { conditionNames } from "../../report/index.ts";
import { EntryForm } from "../forms/entry-form.tsx";
import { spokenClock, spokenInstant } from "../forms/instant.ts";
import { view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { ProblemList } from "./problem-list.tsx";
import { runSpecs } from "./run-specs.ts";
import { runStart } from "./run-start.ts";
import { RunFold } from "./run-figures.tsx";
import { TracePicture } from "./trace-picture.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly trace: string;
  readonly onDone: () => void;
}

function clockOf(trace: TraceView, clock: string): string {
  if (trace.stream) return spokenInstant(`${clock}Z`);
  return trace.clock === "elapsed" ? clock.slice(11, 19) : spokenClock(clock);
}

/** Two clocks of one file, so no zone matters. */
const moment = (clock: string): number =>
  Date.parse(/(Z|[+-]\d\d:\d\d)$/.test(clock) ? clock : `${clock}Z`);

/** The same stretch of the file, or a part of it; a run without ends takes all of it. */
const overlaps = ({ from, to }: RunView, proposal: IntervalProposal): boolean =>
  (to === undefined || moment(to) > moment(proposal.from)) &&
  (from === undefined || moment(from) < moment(proposal.to));

/** A file in the log: its picture, what was kept aside, and its intervals to be confirmed as runs. */
export function TraceStep({ trial, stage, trace: id, onDone }: Props) {
  const seen = view.value;
  const trace = seen.traces.find((one) => one.id === id);
  if (!trace) return <p>This file is no longer in the log; it was withdrawn.</p>;
  const runs = seen.runs.filter((run) => run.trace === id);
  const open = trace.proposals.filter((proposal) => !runs.some((run) => overlaps(run, proposal)));
  const next = trace.kind === "run" ? open[0] : undefined;
  return (
    <div class="trace-step">
      <TracePicture trace={trace} view={seen} />
      <ProblemList trace={trace} />
      {runs.length > 0 && (
        <div>
          {runs.map((run) => (
            <RunFold key={run.id} run={run} view={seen} />
          ))}
        </div>
      )}
      {next ? (
        <section class="proposal">
          <h2>
            Interval {trace.proposals.indexOf(next) + 1} of {trace.proposals.length}:{" "}
            {conditionNames[next.condition]}?
          </h2>
          <p>
            <span class="figure">
              {clockOf(trace, next.from)} to {clockOf(trace, next.to)}
            </span>
            . Proposed because {next.why}.
          </p>
          <ConfirmRun key={next.from} {...{ trial, stage, trace, proposal: next, onDone }} />
        </section>
      ) : (
        <p class="actions">
          <button type="button" class="button button-main" onClick={onDone}>
            Back to the stage
          </button>
        </p>
      )}
    </div>
  );
}

interface ConfirmProps {
  readonly trial: string;
  readonly stage: StageView;
  readonly trace: TraceView;
  readonly proposal: IntervalProposal;
  readonly onDone: () => void;
}

function ConfirmRun({ trial, stage, trace, proposal, onDone }: ConfirmProps) {
  return (
    <EntryForm
      trial={trial}
      type="run-recorded"
      formKey={`run ${trace.id} ${proposal.from}`}
      specs={runSpecs.filter(({ name }) => name !== "when")}
      start={runStart(view.value, stage, proposal)}
      fixed={{
        stage: stage.stage,
        ...(stage.round !== undefined && { round: stage.round }),
        trace: trace.id,
        from: proposal.from,
        to: proposal.to,
        ...(trace.clock === "file" && {
          when: new Date(trace.stream ? `${proposal.from}Z` : proposal.from).toISOString(),
        }),
      }}
      saveLabel="Confirm as a run"
      onCancel={onDone}
      onSaved={() => {
        say("Confirmed. Its settled values are below the picture.");
      }}
    />
  );
}
