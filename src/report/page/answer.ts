import {
  claimFindings,
  type Comparison,
  type DifferenceRow,
  fairComparisonOf,
  type FairRow,
  hazardFindings,
} from "../../trial/index.ts";
import { fairSentence } from "../fair-words.ts";
import { conditionNames } from "../names.ts";
import { fairKind } from "../pictures/fair-scales.tsx";
import type { VerdictKind } from "../pictures/verdict-mark.tsx";
import type { Page } from "./context.ts";
import { closureSentence } from "./closure-sentence.ts";
import { hazardSentence, hazardVerdict, takenSentence } from "./hazard-words.ts";
import { judgedReadings } from "./judged.ts";

/** One line of the answer: what can be said, and how firmly. */
export interface AnswerLine {
  readonly kind: VerdictKind;
  readonly word: string;
  readonly about: string;
  readonly sentence: string;
}

/** What can be said now, from the log alone. Decides nothing that no evidence decides. */
export const answerLines = (page: Page): AnswerLine[] => [
  ...performanceLines(page),
  ...hazardLines(page),
  ...claimLines(page),
  ledgerLine(page),
  ...readingLine(page),
  missingLine(page),
];

/** "1.4 K warmer": the direction of a difference of vent air in words. */
export function ventWords(row: DifferenceRow, page: Page): string {
  const shown = page.units.quantityDifference(row.quantity);
  const { value, u } = row.difference;
  const size = shown.pair({ value: Math.abs(value), u }).replace(/^\+/, "");
  return `${size} ${value < 0 ? "colder" : "warmer"}`;
}

export const ventRow = ({ rows }: Comparison): DifferenceRow | undefined =>
  rows.find(({ quantity, form }) => quantity === "vent-temperature" && form === "steady");

function performanceLines(page: Page): AnswerLine[] {
  const { view } = page;
  const label = view.vehicle?.labelRefrigerant ?? "the label refrigerant";
  const fair = fairComparisonOf(view);
  return view.products.map(({ id, name }) => {
    const about = `As cold as ${label}: ${name}`;
    const rows =
      fair.kind === "compared"
        ? fair.rows.filter(({ product, quantity }) => product === id && quantity === "vent")
        : [];
    if (rows.length > 0) {
      const sentence = rows.map((row) => fairSentence(row, label, page.units)).join(" ");
      return { ...overall(rows), about, sentence };
    }
    const why = fair.kind === "none" ? ` In equal conditions: ${fair.why}` : "";
    return {
      kind: "undecided",
      word: "undecided",
      about,
      sentence: `${asMeasuredSentence(page, id, name)}${why}`,
    };
  });
}

/** One word for all conditions: what they agree on, else undecided. */
function overall(rows: readonly FairRow[]): Pick<AnswerLine, "kind" | "word"> {
  const words = new Set(rows.map(({ verdict }) => verdict));
  const [word = "undecided"] = words;
  return words.size === 1
    ? { kind: fairKind(word), word }
    : { kind: "undecided", word: "differs by condition" };
}

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

function hazardLines({ view, units }: Page): AnswerLine[] {
  const hazards = hazardFindings(view);
  return view.products.map(({ id, name, flammableMark, fluid, declares }) => {
    const found = hazards.find(({ product }) => product === id);
    const declared = fluid ?? declares;
    const what =
      declared === undefined || declared === ""
        ? "It does not declare what it is."
        : `It declares: ${declared.replace(/[.\s]+$/u, "")}.`;
    const mark = flammableMark
      ? "Its can carries a flammability mark, and the vehicle was not designed for a flammable refrigerant: treat it as flammable."
      : "Its can carries no flammability mark, which proves nothing about its contents.";
    const leak = found
      ? [takenSentence(found), hazardSentence(found, units)].filter((text) => text !== undefined)
      : [];
    return {
      ...(found ? hazardVerdict(found) : ({ kind: "undecided", word: "undecided" } as const)),
      about: `Hazard: ${name}`,
      sentence: [mark, what, ...leak].join(" "),
    };
  });
}

const claimWords = ["supported", "contradicted", "undecided"] as const;

function claimLines({ view }: Page): AnswerLine[] {
  return claimFindings(view).flatMap(({ name, claims: mine }): AnswerLine[] => {
    const statements = mine.flatMap((claim) => claim.statements);
    if (statements.length === 0) return [];
    const counts = claimWords.map((word) => ({
      word,
      n: statements.filter(({ verdict }) => verdict === word).length,
    }));
    const contradicted = statements.find(({ verdict }) => verdict === "contradicted");
    const all = statements.every(({ verdict }) => verdict === "supported");
    const tally = counts
      .filter(({ n }) => n > 0)
      .map(({ word, n }) => `${n} ${word}`)
      .join(", ");
    const said = `Of ${statements.length} ${statements.length === 1 ? "statement" : "statements"} on its label: ${tally}.`;
    const sentence = contradicted
      ? `${said} Contradicted: “${contradicted.statement}” ${contradicted.because}`
      : said;
    return [
      {
        kind: contradicted ? "higher" : all ? "within" : "undecided",
        word: contradicted ? "contradicted" : all ? "supported" : "undecided",
        about: `Claims: ${name}`,
        sentence,
      },
    ];
  });
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
