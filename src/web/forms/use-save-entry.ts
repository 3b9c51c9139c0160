import { useState } from "preact/hooks";
import type { Entry, EntryType, Issue } from "../../trial/index.ts";
import { type Draft, forgetDraft } from "../shell/drafts.ts";
import { record, type Recorded } from "../shell/log-keeper.ts";
import type { Built } from "./body.ts";

interface Saving {
  readonly trial: string;
  readonly type: EntryType;
  readonly formKey: string;
  readonly corrects: Entry | undefined;
  readonly onSaved: (id: string) => void;
}

interface Saver {
  readonly issues: readonly Issue[];
  readonly failure: string | undefined;
  readonly busy: boolean;
  /** Saves the body, or lists what stands in its way. */
  readonly save: (built: Built, draft: Draft) => Promise<void>;
}

/** Writes one entry, or its correction, and says what was objected to. */
export function useSaveEntry({ trial, type, formKey, corrects, onSaved }: Saving): Saver {
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [failure, setFailure] = useState<string>();
  const [busy, setBusy] = useState(false);
  const write = (body: Built["body"], reason: string): Promise<Recorded> =>
    corrects
      ? record(trial, "entry-corrected", {
          target: corrects.id,
          body,
          reason,
          supersedes: corrects.corrections.map(({ id }) => id),
        })
      : record(trial, type, body);
  const save = async (built: Built, draft: Draft): Promise<void> => {
    if (busy) return;
    const reason = (draft["_reason"] ?? "").trim();
    const own = corrects && reason === "" ? [...built.issues, noReason] : built.issues;
    setIssues(own);
    setFailure(undefined);
    if (own.length > 0) return;
    setBusy(true);
    const outcome = await write(built.body, reason);
    setBusy(false);
    if (outcome.kind === "invalid") setIssues(outcome.issues.map(inForm));
    else if (outcome.kind === "not-kept") setFailure(outcome.sentence);
    else {
      forgetDraft(formKey);
      onSaved(outcome.id);
    }
  };
  return { issues, failure, busy, save };
}

const noReason: Issue = { field: "_reason", value: "", accepted: "a few words" };

/** The log names a field by its path from the event; the form by its path in the body. */
const inForm = (issue: Issue): Issue => ({ ...issue, field: issue.field.replace(/^body\./, "") });
