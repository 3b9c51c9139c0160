import { effect, signal } from "@preact/signals";
import { place } from "./route.ts";

/** Steps that take an entry and show nothing that a recording holds. */
const entrySteps = new Set(["reading", "transfer", "empty", "note"]);
/** Time for the form to stand and a first letter to be typed, ms. */
const pause = 400;

const isEntry = (parts: readonly string[]): boolean =>
  parts[0] === "trial" && parts[2] === "stage" && entrySteps.has(parts[5] ?? "");

/**
 * False while the app has just begun at a form: what loggers recorded is read, and what a stage holds is
 * drawn, when the form stands. On a phone they take as long as all the rest.
 */
export const looksFurther = signal(false);

effect(() => {
  if (!isEntry(place.value)) looksFurther.value = true;
});

/** To be told when the form is there. */
export function formStands(): void {
  if (looksFurther.peek()) return;
  const further = (): void => {
    looksFurther.value = true;
  };
  // Safari has no idle callback.
  setTimeout(() => {
    if ("requestIdleCallback" in window) requestIdleCallback(further, { timeout: 2000 });
    else further();
  }, pause);
}
