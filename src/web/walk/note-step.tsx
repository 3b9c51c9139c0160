import type { StageView } from "../../trial/index.ts";
import { EntryForm } from "../forms/entry-form.tsx";
import { noteSpecs } from "./note-specs.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

/** Words that no field holds: what was seen, heard, smelt, repaired. */
export function NoteStep({ trial, stage, onSaved, onCancel }: Props) {
  return (
    <EntryForm
      trial={trial}
      type="note-written"
      formKey={`note ${stage.stage} ${stage.round ?? "-"}`}
      specs={noteSpecs}
      fixed={{ stage: stage.stage, ...(stage.round !== undefined && { round: stage.round }) }}
      saveLabel="Save the note"
      onCancel={onCancel}
      onSaved={onSaved}
    />
  );
}
