import { useState } from "preact/hooks";
import type { Issue, ReadingPrompt, StageView } from "../../trial/index.ts";
import { formatQuantity, type Quantity } from "../../units/index.ts";
import { draftOf, forgetDraft } from "../shell/drafts.ts";
import { record, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { rememberInstrument } from "../shell/preferences.ts";
import { readingBodies, readingInstrument, readingKey } from "./reading-draft.ts";

interface Reading {
  readonly trial: string;
  readonly stage: StageView;
  readonly prompt: ReadingPrompt;
  readonly onSaved: () => void;
}

export interface Saving {
  readonly issues: readonly Issue[];
  readonly failure: string | undefined;
  readonly busy: boolean;
  /** Objections no longer hold: something was typed. */
  readonly clear: () => void;
  readonly save: () => Promise<void>;
}

/** Saves what stands in a reading's fields: one entry, or two for the ends of a swing. */
export function useSaveReading({ trial, stage, prompt, onSaved }: Reading): Saving {
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [failure, setFailure] = useState<string>();
  const [busy, setBusy] = useState(false);
  const key = readingKey(stage, prompt);

  const entries = async (): Promise<boolean> => {
    const draft = draftOf(key);
    const built = readingBodies({ view: view.value, stage, prompt, draft });
    setIssues(built.issues);
    setFailure(undefined);
    if (built.issues.length > 0) return false;
    const said: string[] = [];
    for (const body of built.bodies) {
      const outcome = await record(trial, "reading-taken", body);
      if (outcome.kind === "invalid") setIssues(outcome.issues);
      if (outcome.kind === "not-kept") setFailure(outcome.sentence);
      if (outcome.kind !== "recorded") return false;
      said.push(formatQuantity(body["value"] as Quantity));
    }
    const instrument = readingInstrument(view.value, prompt, draft);
    if (instrument !== "") rememberInstrument(trial, prompt.quantity, instrument);
    say(`Saved: ${prompt.label}, ${said.join(" to ")}.`);
    return true;
  };
  const save = async (): Promise<void> => {
    if (busy) return;
    setBusy(true);
    const saved = await entries();
    setBusy(false);
    if (!saved) return;
    forgetDraft(key);
    onSaved();
  };
  const clear = (): void => {
    setIssues([]);
  };
  return { issues, failure, busy, clear, save };
}
