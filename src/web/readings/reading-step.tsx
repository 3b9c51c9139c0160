import { useState } from "preact/hooks";
import { type Issue, judgeReading, type ReadingForm, type ReadingPrompt, type StageView } from "../../trial/index.ts";
import { formatQuantity } from "../../units/index.ts";
import { Segments } from "../fields/segments.tsx";
import { WhenField } from "../fields/when-field.tsx";
import { ActionBar } from "../forms/action-bar.tsx";
import { changeDraft, type Draft, draftOf, forgetDraft } from "../shell/drafts.ts";
import { record, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { rememberInstrument, rememberUnit } from "../shell/preferences.ts";
import { LargeField } from "./large-field.tsx";
import { ReadingAttributes } from "./reading-attributes.tsx";
import {
  formsShown,
  readingBodies,
  readingInContext,
  readingInstrument,
  readingKey,
  readingUnit,
  typedValue,
} from "./reading-draft.ts";
import { VerdictPanel } from "./verdict-panel.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly prompt: ReadingPrompt;
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

const formLabels: Readonly<Record<ReadingForm, string>> = {
  steady: "Reading",
  lowest: "Lowest of the swing",
  highest: "Highest of the swing",
};

/** One reading: one large field, its verdict as it is typed, the save where the thumb is. */
export function ReadingStep({ trial, stage, prompt, onSaved, onCancel }: Props) {
  const key = readingKey(stage, prompt);
  const draft = draftOf(key);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [failure, setFailure] = useState<string>();
  const [busy, setBusy] = useState(false);
  const where = { view: view.value, stage, prompt, draft };
  const change = (part: Draft): void => {
    setIssues([]);
    changeDraft(key, part);
  };

  const save = async (): Promise<void> => {
    const built = readingBodies(where);
    setIssues(built.issues);
    setFailure(undefined);
    if (built.issues.length > 0) return;
    setBusy(true);
    const said: string[] = [];
    for (const body of built.bodies) {
      const outcome = await record(trial, "reading-taken", body);
      if (outcome.kind === "invalid") setIssues(outcome.issues);
      if (outcome.kind === "not-kept") setFailure(outcome.sentence);
      if (outcome.kind !== "recorded") {
        setBusy(false);
        return;
      }
      said.push(formatQuantity(body["value"] as { value: number; unit: string }));
    }
    const instrument = readingInstrument(view.value, prompt, draft);
    if (instrument !== "") rememberInstrument(trial, prompt.quantity, instrument);
    forgetDraft(key);
    say(`Saved: ${prompt.label}, ${said.join(" to ")}.`);
    onSaved();
  };

  const forms = formsShown(prompt, draft);
  return (
    <form
      class="reading-step"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (!busy) void save();
      }}
    >
      {prompt.forms.length > 1 && (
        <Segments
          name="reading-form"
          label="How it stands in time"
          value={forms[0] === "steady" ? "steady" : "cycling"}
          options={[
            { value: "steady", label: "Steady" },
            { value: "cycling", label: "Clutch cycles", hint: "lowest and highest" },
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
          label={forms.length === 1 && form === "steady" ? prompt.label : formLabels[form]}
          prompt={prompt}
          text={draft[form] ?? ""}
          unit={readingUnit(prompt, draft)}
          typed={typedValue(prompt, draft, form)}
          issue={issues.find(({ field }) => field === form || field.startsWith("body.value"))?.accepted}
          onText={(text) => {
            change({ [form]: text });
          }}
          onUnit={(unit) => {
            rememberUnit(prompt.quantity, unit);
            change({ unit });
          }}
        />
      ))}
      <div class="verdicts" aria-live="polite">
        {forms.map((form) => {
          const typed = typedValue(prompt, draft, form);
          if (typed.kind !== "quantity") return null;
          const verdict = judgeReading(view.value, readingInContext(where, form, typed.quantity));
          return (
            verdict && (
              <VerdictPanel
                key={form}
                verdict={verdict}
                typed={typed.quantity}
                log={prompt.quantity === "vacuum"}
                atmosphere={view.value.atmosphere.value}
                title={form === "steady" ? prompt.label : `${prompt.label}, ${form}`}
              />
            )
          );
        })}
      </div>
      <ReadingAttributes stage={stage} prompt={prompt} draft={draft} change={change} />
      <WhenField
        id="reading-when"
        text={draft["when"] ?? ""}
        onText={(when) => {
          change({ when });
        }}
      />
      {failure !== undefined && (
        <p class="objections" role="alert">
          Not saved. {failure}
        </p>
      )}
      <ActionBar saveLabel="Save the reading" busy={busy} onCancel={onCancel} />
    </form>
  );
}
