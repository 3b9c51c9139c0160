import { compute } from "../calculations/index.ts";
import {
  chargingFinding,
  faultQuestion,
  holdFinding,
  recoveryFinding,
  type TrialView,
} from "../trial/index.ts";
import { workedOut } from "./page/worked-out.ts";

/** As it looks after a way through JSON, without curves: they follow from the figures beside them. */
const plain = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (name, one: unknown) => {
      return name === "series" || ArrayBuffer.isView(one) ? undefined : one;
    }),
  ) as unknown;

const diagnosed = ["prove", "restore"] as const;

/**
 * Everything that a report concludes from a log, as numbers and words in SI. The same log and day give the same
 * bits on the same version. Names of things that only label a picture are left to the log.
 *
 * @param day  YYYY-MM-DD on which the report is written: a cylinder's retest date is held against it.
 */
export function figuresOf(view: TrialView, day: string): unknown {
  const { atmosphere, ledger, readings, runs, comparisons, drift } = view;
  const places = view.stages.filter(({ status }) => status !== "not-started");
  const at = (...stages: readonly string[]) =>
    places
      .filter(({ stage }) => stages.includes(stage))
      .map(({ stage, round }) => ({ stage, round }));
  const { fair, identified, claims, hazards, answers } = workedOut(view);
  return plain({
    atmosphere,
    readings: readings.map(({ id, quantity, form, value, u }) => ({
      id,
      quantity,
      form,
      value,
      u,
    })),
    runs: runs.map(({ id, condition, values, unusable }) => ({ id, condition, values, unusable })),
    ledger: {
      postings: ledger.postings,
      closures: ledger.closures,
      conservation: ledger.conservation,
      largest: ledger.largest,
    },
    comparisons,
    drift,
    fair,
    contents: [...identified].map(([product, { verdict, families, overall }]) => ({
      product,
      verdict,
      families: families.map(({ id, probability }) => ({ id, probability })),
      overall,
    })),
    claims,
    hazards,
    answers,
    holds: view.traces
      .filter(({ kind }) => kind === "hold")
      .map((trace) => ({ trace: trace.id, finding: holdFinding(view, trace) })),
    diagnoses: diagnosed.flatMap((stage) => diagnosisIn(view, stage)),
    recovery: at("recover", "restore").map((place) => ({
      ...place,
      finding: recoveryFinding(view, place, day),
    })),
    charging: at("charge").map((place) => ({ ...place, finding: chargingFinding(view, place) })),
  });
}

/** What the runs of a stage say together, as the page shows it. */
function diagnosisIn(view: TrialView, stage: (typeof diagnosed)[number]): readonly unknown[] {
  const question = faultQuestion(view, stage);
  if (!question) return [];
  if (question.kind === "none") return [{ stage, why: question.why }];
  const runs = question.runs.map(({ id }) => id);
  const answer = compute("diagnose", question.input);
  return [
    answer.kind === "answer"
      ? { stage, runs, result: answer.result }
      : { stage, runs, kind: answer.kind },
  ];
}
