import { useEffect, useState } from "preact/hooks";
import type { Answer } from "../../calculations/index.ts";
import type { Job } from "./batch.ts";
import { ask, keyOf, knownAnswers } from "./engine.ts";

/** What a screen knows of its requests. */
export interface Answers {
  /** To the last batch that was answered; empty before the first. */
  readonly answers: readonly Answer[];
  /** The answers belong to what is asked now. */
  readonly current: boolean;
  /** The worker cannot compute on this device. */
  readonly failed: boolean;
}

/** Answers to a batch; while a new one is worked out the last one stays, marked as not current. */
export function useAnswers(jobs: readonly Job[]): Answers {
  const key = keyOf(jobs);
  const [held, setHeld] = useState<{ key: string; answers: readonly Answer[] }>();
  const [failedKey, setFailedKey] = useState<string>();
  const there = knownAnswers(key);
  useEffect(() => {
    const before = knownAnswers(key);
    if (before) {
      setHeld({ key, answers: before });
      return undefined;
    }
    const asked = ask(jobs);
    asked.answers.then(
      (answers) => {
        setHeld({ key, answers });
      },
      () => {
        setFailedKey(key);
      },
    );
    return () => {
      asked.drop();
    };
  }, [key]);
  return {
    answers: there ?? held?.answers ?? [],
    current: there !== undefined || held?.key === key,
    failed: failedKey === key,
  };
}
