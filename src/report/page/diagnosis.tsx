import { compute, type DiagnosisResult } from "../../calculations/index.ts";
import { type FaultQuestion, faultQuestions } from "../../trial/index.ts";
import { DiagnosisView } from "../diagnosis/diagnosis.tsx";
import { diagnosisUnits } from "../diagnosis/diagnosis-units.ts";
import { stageNames } from "../names.ts";
import type { Page } from "./context.ts";
import { Section, type SectionEntry, Twice } from "./section.tsx";

const diagnosed = ["prove", "restore"] as const;

/** What the vehicle's own runs say of its health: the latest one of Prove and of Restore. */
export function Diagnoses({ page, id, title }: { page: Page } & SectionEntry) {
  const questions = diagnosed.flatMap((stage) => {
    const all = faultQuestions(page.view, stage);
    const last = all.findLast(({ kind }) => kind === "asked") ?? all.at(-1);
    return last ? [last] : [];
  });
  return (
    <Section
      id={id}
      title={title}
      lead={
        questions.length === 0
          ? "No run on the label refrigerant was recorded in Prove or Restore: nothing can be said of the vehicle's health."
          : "From the latest run on the label refrigerant in Prove and in Restore, by a model of this kind of vehicle. Two independent signs are needed before a fault is named."
      }
    >
      {questions.map((question) => (
        <OneRun key={question.run.id} question={question} page={page} />
      ))}
    </Section>
  );
}

function OneRun({ question, page }: { question: FaultQuestion; page: Page }) {
  const { run } = question;
  const heading = (
    <h3>
      {stageNames[run.stage]}: {run.name}
    </h3>
  );
  if (question.kind === "none") {
    return (
      <>
        {heading}
        <p>Undecided: {question.why}</p>
      </>
    );
  }
  const answer = compute("diagnose", question.input);
  if (answer.kind !== "answer") {
    return (
      <>
        {heading}
        <p>
          Undecided:{" "}
          {answer.kind === "no-answer" ? answer.message : "a value of this run cannot be used."}
        </p>
      </>
    );
  }
  return (
    <>
      {heading}
      <DiagnosisView
        id={`diagnosis-${run.id}`}
        // The calculation's own schema is tested to be what its result is.
        result={answer.result as DiagnosisResult}
        units={diagnosisUnits(page.units)}
        fit={(id, draw) => <Twice id={id} draw={draw} />}
      />
      <p class="quiet">
        {question.baseline.length > 0 && `Baseline: ${question.baseline.join(", ")}. `}
        {question.assumed.length > 0 && `Assumed: ${question.assumed.join("; ")}.`}
      </p>
    </>
  );
}
