import type { Comparison, DifferenceRow } from "../../trial/index.ts";
import { conditionNames } from "../names.ts";
import type { VerdictKind } from "../pictures/verdict-mark.tsx";
import type { Page } from "./context.ts";
import { closureSentence } from "./closure-sentence.ts";
import { judgedReadings } from "./judged.ts";
import { workedOut } from "./worked-out.ts";

/** One line of the answer: what can be said, and how firmly. */
export interface AnswerLine {
  readonly kind: VerdictKind;
  readonly word: string;
  readonly about: string;
  readonly sentence: string;
}

/** What can be said now, from the log alone. Decides nothing that no evidence decides. */
export const answerLines = (page: Page): AnswerLine[] => [
  ...measuredLines(page),
  ledgerLine(page),
  ...readingLine(page),
  missingLine(page),
];

/** "1.4 K warmer": the direction of a difference of vent air in words. */
export function ventWords(row: DifferenceRow, page: Page): string {
  const shown = page.units.quantityDifference(row.quantity);
  const { value, u } = row.difference;
  const size = shown.pair({ value: Math.abs(value), u }).replace(/^\+/, "");
  // What rounds to nothing has no direction.
  if (!/^[^±]*[1-9]/u.test(size)) return `no different (${size})`;
  return `${size} ${value < 0 ? "colder" : "warmer"}`;
}

export const ventRow = ({ rows }: Comparison): DifferenceRow | undefined =>
  rows.find(({ quantity, form }) => quantity === "vent-temperature" && form === "steady");

/** As measured, where nothing can be said in equal conditions. */
const measuredLines = (page: Page): AnswerLine[] =>
  workedOut(page.view).fair.kind === "compared"
    ? []
    : page.view.products.map(({ id, name }) => ({
        kind: "undecided",
        word: "undecided",
        about: `As measured: ${name}`,
        sentence: asMeasuredSentence(page, id, name),
      }));

function asMeasuredSentence(page: Page, id: string, name: string): string {
  const measured = page.view.comparisons
    .filter(({ product }) => product === id)
    .flatMap((comparison) => {
      const row = ventRow(comparison);
      return row ? [`${conditionNames[comparison.condition]} ${ventWords(row, page)}`] : [];
    });
  return measured.length === 0
    ? "No pair of runs in the same condition gives a vent temperature with both charges, so nothing can be compared yet."
    : `As measured, vent air with ${name} was: ${measured.join("; ")}. The runs were not made in equal conditions, so this is not yet a finding about the product.`;
}

function ledgerLine(page: Page): AnswerLine {
  const { closures, accounts } = page.view.ledger;
  const shown = page.units.thing("small-mass");
  const open = closures.filter(({ grade }) => grade === "does-not-close");
  const doubtful = closures.filter(({ grade }) => grade === "doubtful");
  const about = "Every gram accounted for";
  const kept = accounts
    .filter(({ kind }) => kind === "lost" || kind === "unaccounted")
    .map(({ kind, mass }) => `${kind} ${shown.pair(mass)}`);
  const totals = kept.length > 0 ? ` Totals: ${kept.join(", ")}.` : "";
  if (closures.length === 0) {
    const sentence = `Nothing was weighed twice, so no mass can be checked.${totals}`;
    return { kind: "undecided", word: "undecided", about, sentence };
  }
  if (open.length > 0) {
    const sentence = `${open.length} of ${closures.length} checks do not close. ${open.map((one) => closureSentence(one, page)).join(" ")}${totals}`;
    return { kind: "higher", word: "does not close", about, sentence };
  }
  const also =
    doubtful.length > 0
      ? `${doubtful.length} of ${closures.length} checks are between two and three standard uncertainties; the others close.`
      : `All ${closures.length} checks close within two standard uncertainties.`;
  return {
    kind: doubtful.length > 0 ? "undecided" : "within",
    word: doubtful.length > 0 ? "doubtful" : "closes",
    about,
    sentence: `${also}${totals}`,
  };
}

function readingLine(page: Page): AnswerLine[] {
  const verdicts = judgedReadings(page).flatMap(({ verdict }) => verdict ?? []);
  if (verdicts.length === 0) return [];
  const count = (kinds: readonly VerdictKind[]): number =>
    verdicts.filter(({ kind }) => kinds.includes(kind)).length;
  const outside = count(["higher", "lower"]);
  const sentence = `Of ${verdicts.length} readings that were judged, ${count(["within"])} lie within their band, ${outside} outside, ${count(["undecided"])} undecided.`;
  return [
    outside > 0
      ? { kind: "higher", word: "outside", about: "Readings against their bands", sentence }
      : {
          kind: "within",
          word: "no reading outside",
          about: "Readings against their bands",
          sentence,
        },
  ];
}

function missingLine({ view }: Page): AnswerLine {
  const all = view.stages.flatMap(({ requirements }) => requirements);
  const open = all.filter(({ met }) => !met).length;
  const about = "The work itself";
  return open === 0
    ? {
        kind: "within",
        word: "complete",
        about,
        sentence: `All ${all.length} requirements are met.`,
      }
    : {
        kind: "undecided",
        word: "not complete",
        about,
        sentence: `${open} of ${all.length} requirements are not met; they are listed under “What is missing”.`,
      };
}
