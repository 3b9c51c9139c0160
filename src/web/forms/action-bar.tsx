interface Props {
  readonly saveLabel: string;
  readonly busy?: boolean;
  readonly onCancel?: (() => void) | undefined;
  readonly cancelLabel?: string;
}

/** The act of a form, where the thumb is. */
export function ActionBar({ saveLabel, busy = false, onCancel, cancelLabel = "Back" }: Props) {
  return (
    <div class="action-bar">
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
