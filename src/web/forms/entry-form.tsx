import type { ComponentChildren } from "preact";
import type { Entry, EntryType, Issue, TrialView } from "../../trial/index.ts";
import { changeDraft, type Draft, draftOf } from "../shell/drafts.ts";
import { view } from "../shell/log-keeper.ts";
import { ActionBar } from "./action-bar.tsx";
import { bodyFrom, draftFrom } from "./body.ts";
import { FormField } from "./form-field.tsx";
import { issueFor, Objections } from "./objections.tsx";
import { type FieldSpec, isShown } from "./spec.ts";
import { useSaveEntry } from "./use-save-entry.ts";

export interface EntryFormProps {
  readonly trial: string;
  readonly type: EntryType;
  /** Under this name the half-typed form is kept. */
  readonly formKey: string;
  readonly specs: readonly FieldSpec[];
  /** What the form starts from when nothing was typed yet. */
  readonly start?: Draft;
  /** Parts of the body that nobody types here, such as the stage. */
  readonly fixed?: Readonly<Record<string, unknown>>;
  /** Parts of the body that are made of several fields, those named "_…" among them. */
  readonly complete?: (draft: Draft) => Readonly<Record<string, unknown>>;
  readonly saveLabel: string;
  /** Set when the form corrects an entry: a reason is then asked and the first entry stays. */
  readonly corrects?: Entry | undefined;
  readonly onSaved: (id: string) => void;
  readonly onCancel?: () => void;
  /** Shown right after a field: what its choice brings with it. */
  readonly beside?: (name: string, draft: Draft) => ComponentChildren;
  /** Shown between the fields and the save button: what the entry will do. */
  readonly preview?: (
    body: Readonly<Record<string, unknown>>,
    issues: readonly Issue[],
  ) => ComponentChildren;
}

const reasonSpec: FieldSpec = {
  kind: "text",
  name: "_reason",
  label: "Why is it corrected?",
  hint: "The first entry stays in the log; this reason stands beside it.",
  long: true,
};

/** A form for one entry of the log: drafts kept, objections named, saved in one act. */
export function EntryForm(props: EntryFormProps) {
  const { formKey, corrects, fixed = {} } = props;
  const specs = corrects ? [...props.specs, reasonSpec] : props.specs;
  const start = props.start ?? (corrects ? draftFrom(corrects.body, props.specs) : {});
  const draft: Draft = { ...start, ...draftOf(formKey) };
  const { issues, failure, busy, save } = useSaveEntry({ ...props, corrects });
  const change = (part: Draft): void => {
    changeDraft(formKey, part);
  };
  const built = bodyFrom(formKey, specs, draft);
  const body = { ...fixed, ...built.body, ...props.complete?.(draft) };
  return (
    <form
      class="entry-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void save({ ...built, body }, draft);
      }}
    >
      <Fields
        form={formKey}
        specs={specs}
        draft={draft}
        issues={issues}
        view={view.value}
        change={change}
        beside={props.beside}
      />
      {props.preview?.(body, built.issues)}
      <Objections form={formKey} issues={issues} specs={specs} failure={failure} />
      <ActionBar
        saveLabel={corrects ? "Save the correction" : props.saveLabel}
        busy={busy}
        onCancel={props.onCancel}
      />
    </form>
  );
}

interface FieldsProps {
  readonly form: string;
  readonly specs: readonly FieldSpec[];
  readonly draft: Draft;
  readonly issues: readonly Issue[];
  readonly view: TrialView;
  readonly change: (change: Draft) => void;
  readonly beside: EntryFormProps["beside"];
}

function Fields({ form, specs, draft, issues, view: shown, change, beside }: FieldsProps) {
  const visible = specs.filter((spec) => isShown(spec, draft));
  return (
    <>
      {visible.map((spec) => (
        <div key={spec.name} class="form-row">
          {spec.group !== undefined && <h3 class="form-group">{spec.group}</h3>}
          <FormField
            form={form}
            spec={spec}
            draft={draft}
            view={shown}
            issue={issueFor(spec, issues, visible)}
            onChange={change}
          />
          {beside?.(spec.name, draft)}
        </div>
      ))}
    </>
  );
}
