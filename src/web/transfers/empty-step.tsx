import type { StageView } from "../../trial/index.ts";
import { EntryForm } from "../forms/entry-form.tsx";
import { say } from "../shell/notice.ts";
import { emptySpecs } from "./transfer-specs.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

/** A vessel was looked into and held nothing. */
export function EmptyStep({ trial, stage, onSaved, onCancel }: Props) {
  return (
    <EntryForm
      trial={trial}
      type="vessel-found-empty"
      formKey={`empty ${stage.stage} ${stage.round ?? "-"}`}
      specs={emptySpecs}
      fixed={{ stage: stage.stage, ...(stage.round !== undefined && { round: stage.round }) }}
      saveLabel="Save: it is empty"
      onCancel={onCancel}
      onSaved={() => {
        say("Saved. The ledger takes the vessel as empty.");
        onSaved();
      }}
    />
  );
}
