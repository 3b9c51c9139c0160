import type { StageView } from "../../trial/index.ts";
import { parseNumber } from "../../units/index.ts";
import { EntryForm } from "../forms/entry-form.tsx";
import type { Draft } from "../shell/drafts.ts";
import { identifierParts, sampleSpecs } from "./sample-specs.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

/** The percentages that were typed, as the list that the log keeps. */
function partsOf(draft: Draft): Readonly<Record<string, unknown>> {
  if (draft["method"] !== "identifier") return {};
  const parts = identifierParts.flatMap(({ substance }) => {
    const text = (draft[`_${substance}`] ?? "").trim();
    const read = parseNumber(text);
    return read.kind === "number" ? [{ substance, percent: read.value }] : [];
  });
  return { parts };
}

/** What an identifier or a detector said about a product. */
export function SampleStep({ trial, stage, onSaved, onCancel }: Props) {
  return (
    <EntryForm
      trial={trial}
      type="sample-tested"
      formKey={`test ${stage.stage} ${stage.round ?? "-"}`}
      specs={sampleSpecs}
      fixed={{ stage: stage.stage, ...(stage.round !== undefined && { round: stage.round }) }}
      complete={partsOf}
      saveLabel="Save what it said"
      onCancel={onCancel}
      onSaved={onSaved}
    />
  );
}
