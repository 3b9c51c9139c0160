import { useState } from "preact/hooks";
import type { StageView } from "../../trial/index.ts";
import { ActionBar } from "../forms/action-bar.tsx";
import { ClosureList } from "../ledger/closure-list.tsx";
import { record, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { Cautions } from "./caution-box.tsx";
import { StepHead } from "./step-head.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly item: string;
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

/** Something that only a person can confirm: read, looked at, felt. */
export function ConfirmStep({ trial, stage, item, onSaved, onCancel }: Props) {
  const [failure, setFailure] = useState<string>();
  const requirement = stage.requirements.find(({ id }) => id === item);
  const save = async (): Promise<void> => {
    const outcome = await record(trial, "item-confirmed", {
      stage: stage.stage,
      ...(stage.round !== undefined && { round: stage.round }),
      item,
      confirmed: true,
    });
    if (outcome.kind === "recorded") {
      say("Confirmed.");
      onSaved();
    } else {
      setFailure(outcome.kind === "not-kept" ? outcome.sentence : "This item cannot be confirmed.");
    }
  };
  return (
    <form
      class="entry-form"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <StepHead stage={stage} title={requirement?.statement ?? "Confirm"} />
      <Cautions cautions={stage.cautions} whole={item === "hazards-read"} />
      {item === "closures-read" && <ClosureList ledger={view.value.ledger} />}
      {failure !== undefined && (
        <p class="objections" role="alert">
          Not saved. {failure}
        </p>
      )}
      <ActionBar saveLabel="I confirm it" onCancel={onCancel} />
    </form>
  );
}
