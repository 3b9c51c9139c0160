import { useState } from "preact/hooks";
import type { StageView, TraceView } from "../../trial/index.ts";
import { substanceOfKey } from "../forms/body.ts";
import { record, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { runStart } from "../traces/run-start.ts";
import { runOf } from "./run-of.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly trace: TraceView;
  readonly settled: boolean;
}

/** One tap: what the stream held since the last run becomes a run, with the settings of the last one. */
export function RecordRun({ trial, stage, trace, settled }: Props) {
  const [failure, setFailure] = useState<string>();
  const seen = view.value;
  const interval = runOf(trace, seen.runs);
  const save = async (): Promise<void> => {
    if (!interval) return;
    const start = runStart(seen, stage, interval.proposal);
    const charged = start["charged"] ?? "";
    if (charged === "") {
      setFailure("Describe the vehicle in Plan first: a run says what was in it.");
      return;
    }
    const outcome = await record(trial, "run-recorded", {
      stage: stage.stage,
      ...(stage.round !== undefined && { round: stage.round }),
      name: start["name"],
      condition: start["condition"],
      airSource: start["airSource"] || "unknown",
      blower: start["blower"] || "unknown",
      charged: substanceOfKey(charged),
      trace: trace.id,
      from: interval.from,
      to: interval.to,
      when: `${interval.from}Z`,
    });
    if (outcome.kind === "recorded") {
      setFailure(undefined);
      say("The run is recorded. Air source, blower and name can be corrected in the log.");
    } else {
      setFailure(outcome.kind === "not-kept" ? outcome.sentence : "It cannot be recorded so.");
    }
  };
  return (
    <>
      <button
        type="button"
        class={settled ? "button button-main live-record" : "button live-record"}
        disabled={!interval}
        onClick={() => {
          void save();
        }}
      >
        Record this run
      </button>
      {!interval && <p class="quiet">A run needs samples that no other run has taken.</p>}
      {failure !== undefined && (
        <p class="objections" role="alert">
          {failure}
        </p>
      )}
    </>
  );
}
