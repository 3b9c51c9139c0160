import { useEffect } from "preact/hooks";
import { VerdictWord } from "../../report/index.ts";
import type { ReadingPrompt, StageView } from "../../trial/index.ts";
import { WhenField } from "../fields/when-field.tsx";
import { ActionBar } from "../forms/action-bar.tsx";
import { changeDraft, type Draft, draftOf } from "../shell/drafts.ts";
import { view } from "../shell/log-keeper.ts";
import { judging, startJudging } from "./judging.ts";
import { ReadingAttributes } from "./reading-attributes.tsx";
import { formsShown, readingInContext, readingKey, typedValue } from "./reading-draft.ts";
import { ReadingFields } from "./reading-fields.tsx";
import { useSaveReading } from "./use-save-reading.ts";
import { VerdictPanel } from "./verdict-panel.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly prompt: ReadingPrompt;
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

/** The verdicts on what stands in the fields at this moment. */
function verdictsOn(stage: StageView, prompt: ReadingPrompt, draft: Draft) {
  const where = { view: view.value, stage, prompt, draft };
  return formsShown(prompt, draft).flatMap((form) => {
    const typed = typedValue(prompt, draft, form);
    if (typed.kind !== "quantity") return [];
    const verdict = judging.value?.judgeReading(
      view.value,
      readingInContext(where, form, typed.quantity),
    );
    return verdict ? [{ form, typed: typed.quantity, verdict }] : [];
  });
}

/** One reading: one large field, its verdict as it is typed, the save where the thumb is. */
export function ReadingStep({ trial, stage, prompt, onSaved, onCancel }: Props) {
  const key = readingKey(stage, prompt);
  const draft = draftOf(key);
  const { issues, failure, busy, clear, save } = useSaveReading({ trial, stage, prompt, onSaved });
  const change = (part: Draft): void => {
    clear();
    changeDraft(key, part);
  };
  const isTyped = formsShown(prompt, draft).some((form) => (draft[form] ?? "") !== "");
  // The equations come with the first figure that they can judge, not before the field.
  useEffect(() => {
    if (isTyped) void startJudging();
  }, [isTyped]);
  const judged = verdictsOn(stage, prompt, draft);
  return (
    <form
      class="reading-step"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <ReadingFields prompt={prompt} draft={draft} issues={issues} change={change} />
      <Verdicts prompt={prompt} judged={judged} />
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
      <ActionBar
        note={<VerdictLine judged={judged} />}
        saveLabel="Save the reading"
        busy={busy}
        onCancel={onCancel}
      />
    </form>
  );
}

interface VerdictsProps {
  readonly prompt: ReadingPrompt;
  readonly judged: ReturnType<typeof verdictsOn>;
}

const Verdicts = ({ prompt, judged }: VerdictsProps) => (
  <>
    {judged.map(({ form, typed, verdict }) => (
      <VerdictPanel
        key={form}
        verdict={verdict}
        typed={typed}
        quantity={prompt.quantity}
        atmosphere={view.value.atmosphere.value}
        title={form === "steady" ? prompt.label : `${prompt.label}, ${form}`}
      />
    ))}
  </>
);

/** The verdict in a word beside the save button, where it is seen however far the page is scrolled. */
const VerdictLine = ({ judged }: Pick<VerdictsProps, "judged">) => (
  <div class="verdict-line" aria-live="polite">
    {judged.map(({ form, verdict }) => (
      <span key={form}>
        <VerdictWord kind={verdict.kind} word={verdict.word} />
        <span class="visually-hidden">. {verdict.sentence}</span>
      </span>
    ))}
  </div>
);
