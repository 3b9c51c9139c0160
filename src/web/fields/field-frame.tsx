import type { ComponentChildren } from "preact";

interface Props {
  readonly id: string;
  readonly label: string;
  readonly hint?: string | undefined;
  readonly optional?: boolean | undefined;
  /** The label is said, not shown: something beside it shows the same words. */
  readonly hidden?: boolean;
  readonly issue?: string | undefined;
  readonly children: ComponentChildren;
}

/** Ids of what describes a field, for aria-describedby. */
export const describedBy = (id: string, hint?: string, issue?: string): string | undefined => {
  const ids = [hint === undefined ? "" : `${id}-hint`, issue === undefined ? "" : `${id}-issue`];
  const text = ids.filter((one) => one !== "").join(" ");
  return text === "" ? undefined : text;
};

/** Label above, help between, field, objection below. */
export function FieldFrame({ id, label, hint, optional, hidden = false, issue, children }: Props) {
  return (
    <div class={issue === undefined ? "field" : "field has-issue"}>
      <label class={hidden ? "visually-hidden" : "field-label"} for={id}>
        {label}
        {optional === true && <span class="field-optional"> · optional</span>}
      </label>
      {hint !== undefined && (
        <p class="field-hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {children}
      {issue !== undefined && (
        <p class="field-issue" id={`${id}-issue`}>
          Needed here: {issue}
        </p>
      )}
    </div>
  );
}
