import type { Issue, ReadingForm, ReadingPrompt } from "../../trial/index.ts";
import { Segments } from "../fields/segments.tsx";
import type { Draft } from "../shell/drafts.ts";
import { rememberUnit } from "../shell/preferences.ts";
import { LargeField } from "./large-field.tsx";
import { formsShown, readingUnit, typedValue } from "./reading-draft.ts";

interface Props {
  readonly prompt: ReadingPrompt;
  readonly draft: Draft;
  readonly issues: readonly Issue[];
  readonly change: (part: Draft) => void;
}

const formLabels: Readonly<Record<ReadingForm, string>> = {
  steady: "Steady reading",
  lowest: "Lowest of the swing",
  highest: "Highest of the swing",
};

/** One large field; two when a clutch cycles, because a single number would mislead. */
export function ReadingFields({ prompt, draft, issues, change }: Props) {
  const forms = formsShown(prompt, draft);
  const alone = forms.length === 1;
  return (
    <>
      {prompt.forms.length > 1 && (
        <Segments
          name="reading-form"
          label="How it stands in time"
          value={forms[0] === "steady" ? "steady" : "cycling"}
          options={[
            { value: "steady", label: "Steady" },
            { value: "cycling", label: "Clutch cycles" },
          ]}
          onChange={(value) => {
            change({ form: value });
          }}
        />
      )}
      {forms.map((form) => (
        <LargeField
          key={form}
          id={`reading-${form}`}
          label={alone ? prompt.label : formLabels[form]}
          quietLabel={alone}
          prompt={prompt}
          text={draft[form] ?? ""}
          unit={readingUnit(prompt, draft)}
          typed={typedValue(prompt, draft, form)}
          issue={issues.find(({ field }) => field === form || field.startsWith("body."))?.accepted}
          onText={(text) => {
            change({ [form]: text });
          }}
          onUnit={(unit) => {
            rememberUnit(prompt.quantity, unit);
            change({ unit });
          }}
        />
      ))}
    </>
  );
}
