import { signal } from "@preact/signals";
import type { JudgeModule } from "./judge.ts";

/**
 * Verdicts need the equations of the fluids, which are large: they come after the screen that asks for
 * them. Undefined until then; reading it in a component draws that again when they are there.
 */
export const judging = signal<JudgeModule | undefined>(undefined);

let asked: Promise<void> | undefined;

/** Loads what verdicts need; a failure is forgotten, so that the next call tries again. */
export function startJudging(): Promise<void> {
  asked ??= import("./judge.ts")
    .then((module) => {
      judging.value = module;
    })
    .catch(() => {
      asked = undefined;
    });
  return asked;
}
