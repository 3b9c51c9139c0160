import type { TraceProblem } from "./view.ts";

/** One cell of a column: a number, or why it is none. */
export type Cell =
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "problem"; readonly problem: TraceProblem["kind"]; readonly words: string };

const overRange =
  /^(ol|o\.l\.?|over|ovr|ovf|over\s?range|overflow|[<>]+\s*[\d.,]*|[+-]?inf(inity)?)$/iu;
const noValue = /^([-–—_.*#?/]+|n\/?a|nan|null|none|err(or)?|open|fault|no\s?(data|sensor))$/iu;
const point = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/iu;
const comma = /^[+-]?(\d+,?\d*|,\d+)(e[+-]?\d{1,3})?$/iu;

/** @param decimal  The decimal mark of the file; the other one is refused and never guessed. */
export function cellOf(text: string, decimal: "." | ","): Cell {
  const problem = (kind: TraceProblem["kind"], words: string): Cell => ({
    kind: "problem",
    problem: kind,
    words,
  });
  if (text === "") return problem("blank-cell", "nothing stands there");
  if (overRange.test(text)) return problem("over-range", "the instrument was over its range");
  if (noValue.test(text)) return problem("no-value-mark", "the instrument had no value");
  const tidied = text.replace(/^[−–]/u, "-");
  if (!(decimal === "." ? point : comma).test(tidied)) {
    return problem("not-a-number", `that is no number with a decimal "${decimal}"`);
  }
  const value = Number(tidied.replace(",", "."));
  return Number.isFinite(value)
    ? { kind: "number", value }
    : problem("not-a-number", "that number is too large");
}
