import type { StageView } from "../../trial/index.ts";
import { EntryForm } from "../forms/entry-form.tsx";
import { view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { runSpecs } from "./run-specs.ts";
import { runStart } from "./run-start.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

/** A run without a logger: its readings are typed afterwards. */
export function RunStep({ trial, stage, onSaved, onCancel }: Props) {
  return (
    <EntryForm
      trial={trial}
      type="run-recorded"
      formKey={`run ${stage.stage} ${stage.round ?? "-"}`}
      specs={runSpecs}
      start={runStart(view.value, stage)}
      fixed={{ stage: stage.stage, ...(stage.round !== undefined && { round: stage.round }) }}
      saveLabel="Record the run"
      onCancel={onCancel}
      onSaved={() => {
        say("The run is recorded. Now type its readings.");
        onSaved();
      }}
    />
  );
}
