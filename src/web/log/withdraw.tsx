import { useState } from "preact/hooks";
import { FieldFrame } from "../fields/field-frame.tsx";
import { changeDraft, draftOf, forgetDraft } from "../shell/drafts.ts";
import { record } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";

interface Props {
  readonly trial: string;
  readonly entry: string;
  readonly what: string;
}

/** Takes an entry out of force, with a reason; it stays readable in the log. */
export function Withdraw({ trial, entry, what }: Props) {
  const key = `withdraw ${entry}`;
  const reason = draftOf(key)["reason"] ?? "";
  const [issue, setIssue] = useState<string>();
  const id = `withdraw-${entry}`;
  const save = async (): Promise<void> => {
    if (reason.trim() === "") {
      setIssue("a few words, so that a reader knows why it no longer counts");
      return;
    }
    const outcome = await record(trial, "entry-withdrawn", { target: entry, reason });
    if (outcome.kind === "recorded") {
      forgetDraft(key);
      say(`Withdrawn: ${what}. It stays readable in the log.`);
    } else {
      setIssue(outcome.kind === "not-kept" ? outcome.sentence : "another reason");
    }
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <FieldFrame id={id} label="Why is it withdrawn?" issue={issue}>
        <input
          id={id}
          class="text"
          type="text"
          value={reason}
          onInput={(event) => {
            changeDraft(key, { reason: event.currentTarget.value });
          }}
        />
      </FieldFrame>
      <button type="submit" class="button button-danger">
        Withdraw it
      </button>
    </form>
  );
}
