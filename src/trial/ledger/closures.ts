import { formatValue, formatWithUncertainty } from "../../units/index.ts";
import { type Form, measured } from "./form.ts";
import type { AccountId, Closure } from "./view.ts";

/** Beyond these many standard uncertainties a residual is doubtful, then unexplained. */
const doubtfulBeyond = 2;
const openBeyond = 3;
/** A ratio beyond this says no more than "certainly"; it keeps the number finite. */
const largestZ = 999;

export interface Found {
  readonly entry: string;
  readonly when: string;
  readonly account: AccountId;
  readonly name: string;
  readonly kind: Closure["kind"];
  /** What was expected less what was found. */
  readonly residual: Form;
  readonly declared: boolean;
}

/** Grams with a 95 % interval (2 u), both numbers to the interval's second digit. */
export const grams = (mass: number, u: number): string =>
  u > 0
    ? `${formatWithUncertainty(mass * 1e3, "g", 2 * u * 1e3)} (95 %)`
    : formatValue(mass * 1e3, "g");

/** Judges one residual by its own uncertainty. */
export function closure({ residual, name, ...found }: Found): Closure {
  const { value, u } = measured(residual);
  const z = value === 0 ? 0 : u > 0 ? Math.max(-largestZ, Math.min(largestZ, value / u)) : largestZ;
  const size = Math.abs(z);
  const grade =
    size <= doubtfulBeyond ? "closes" : size <= openBeyond ? "doubtful" : "does-not-close";
  const judged = { ...found, residual: value, u, z, grade } as const;
  return { ...judged, sentence: sentence(judged, name) };
}

function sentence(found: Omit<Closure, "sentence">, name: string): string {
  const amount = grams(Math.abs(found.residual), found.u);
  const verdict = verdicts[found.grade](Math.abs(found.z).toFixed(1));
  const more = found.residual >= 0;
  switch (found.kind) {
    case "both-weighed":
      return `Source and destination (${name}) differ by ${amount}: ${more ? "less arrived than left" : "more arrived than left"}. ${verdict}`;
    case "found-empty":
      return found.declared
        ? `${name} was found empty while its declared contents leave ${grams(found.residual, found.u)}: ${more ? "it held less than declared, or some was lost unseen" : "it held more than declared"}. ${verdict}`
        : `${name} was found empty while the scale readings leave ${grams(found.residual, found.u)}. ${verdict}`;
    case "gross-mass":
      return `${name} weighs ${amount} ${more ? "less" : "more"} than its tare and the ledger say. ${verdict}`;
    case "negative-contents":
      return `More has left ${name} than was ever in it: ${amount} too much. ${verdict}`;
    case "runs-backwards":
      return `The weighings of this transfer run backwards by ${amount}: ${name} lost mass instead of gaining it. ${verdict}`;
  }
}

const verdicts: Readonly<Record<Closure["grade"], (z: string) => string>> = {
  closes: (z) => `That is ${z} standard uncertainties: it closes.`,
  doubtful: (z) => `That is ${z} standard uncertainties: doubtful, weigh again if you can.`,
  "does-not-close": (z) => `That is ${z} standard uncertainties: it does not close.`,
};
