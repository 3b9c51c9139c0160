import { useState } from "preact/hooks";
import { fieldOfInstant, spokenInstant } from "../forms/instant.ts";

interface Props {
  readonly id: string;
  readonly text: string;
  readonly issue?: string | undefined;
  readonly onText: (text: string) => void;
}

/** When it happened: now, unless somebody says otherwise. */
export function WhenField({ id, text, issue, onText }: Props) {
  const [open, setOpen] = useState(false);
  if (!open && text === "") {
    return (
      <div class="when">
        <span>When: now, as it is saved</span>
        <button
          type="button"
          class="plain"
          onClick={() => {
            setOpen(true);
            onText(fieldOfInstant(new Date().toISOString()));
          }}
        >
          Set another time
        </button>
      </div>
    );
  }
  return (
    <div class={issue === undefined ? "field" : "field has-issue"}>
      <label class="field-label" for={id}>
        When it happened
      </label>
      <div class="when-row">
        <input
          id={id}
          class="text"
          type="datetime-local"
          step="1"
          value={text}
          onInput={(event) => {
            onText(event.currentTarget.value);
          }}
        />
        <button
          type="button"
          class="plain"
          onClick={() => {
            setOpen(false);
            onText("");
          }}
        >
          Now
        </button>
      </div>
      {text !== "" && <p class="field-hint">{spokenInstant(text)}</p>}
      {issue !== undefined && <p class="field-issue">Needed here: {issue}</p>}
    </div>
  );
}
