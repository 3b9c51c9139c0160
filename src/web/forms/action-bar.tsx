import type { ComponentChildren } from "preact";

interface Props {
  /** Seen at any moment of the act: the verdict, in a word. */
  readonly note?: ComponentChildren;
  readonly saveLabel: string;
  readonly busy?: boolean;
  readonly onCancel?: (() => void) | undefined;
  readonly cancelLabel?: string;
}

/** The act of a form, where the thumb is. */
export function ActionBar({
  note,
  saveLabel,
  busy = false,
  onCancel,
  cancelLabel = "Back",
}: Props) {
  return (
    <div class="action-bar">
      {note !== undefined && <div class="action-note">{note}</div>}
      {onCancel && (
        <button type="button" class="button" onClick={onCancel}>
          {cancelLabel}
        </button>
      )}
      <button type="submit" class="button button-main" aria-disabled={busy}>
        {busy ? "Saving…" : saveLabel}
      </button>
    </div>
  );
}
