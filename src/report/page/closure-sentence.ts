import type { Closure } from "../../trial/index.ts";
import { capital, type Page, vesselName } from "./context.ts";

export const closureKinds: Readonly<Record<Closure["kind"], string>> = {
  "both-weighed": "source and destination weighed",
  "found-empty": "found empty",
  "gross-mass": "weighed with its metal",
  "negative-contents": "more taken out than was in",
  "runs-backwards": "the scale ran backwards",
};

/** The trial's own sentence speaks in grams; a reader who asked for ounces gets the figure in ounces. */
export function closureSentence(closure: Closure, page: Page): string {
  if (page.units.system !== "us") return closure.sentence;
  const { residual, u, account, kind, grade } = closure;
  const size = page.units.thing("small-mass").pair({ value: Math.abs(residual), u });
  const way = residual < 0 ? "more" : "less";
  const name = capital(vesselName(page, account));
  return `${name}, ${closureKinds[kind]}: ${size} ${way} than the ledger expects, so it ${grades[grade]}.`;
}

export const grades = {
  closes: "closes",
  doubtful: "is doubtful",
  "does-not-close": "does not close",
};
