import { compute, type DiagnosisResult } from "../../calculations/index.ts";
import { type FaultQuestion, faultQuestion } from "../../trial/index.ts";
import { DiagnosisBasis } from "../diagnosis/diagnosis-basis.tsx";
import { DiagnosisView } from "../diagnosis/diagnosis.tsx";
import { diagnosisUnits } from "../diagnosis/diagnosis-units.ts";
import { stageNames } from "../names.ts";
import type { Page } from "./context.ts";
import { Section, type SectionEntry, Twice } from "./section.tsx";

const diagnosed = ["prove", "restore"] as const;

/** What the vehicle's own runs say of its health: those of Prove together, and those of Restore. */
export function Diagnoses({ page, id, title }: { page: Page } & SectionEntry) {
  const questions = diagnosed.flatMap((stage) => faultQuestion(page.view, stage) ?? []);
  return (
    <Section
      id={id}
      title={title}
      lead={
        questions.length === 0
          ? "No run on the label refrigerant was recorded in Prove or Restore: nothing can be said of the vehicle's health."
          : "From the runs on the label refrigerant of a stage, judged together by a model of this kind of vehicle. Two independent signs are needed before a fault is named."
      }
    >
      {questions.map((question) => (
        <OneStage key={question.stage} question={question} page={page} />
      ))}
    </Section>
  );
}

function OneStage({ question, page }: { question: FaultQuestion; page: Page }) {
  const { stage } = question;
  const heading = <h3>{stageNames[stage]}</h3>;
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
          {answer.kind === "no-answer" ? answer.message : "a value of a run cannot be used."}
        </p>
      </>
    );
  }
  return (
    <>
      {heading}
      <DiagnosisView
        id={`diagnosis-${stage}`}
        // The calculation's own schema is tested to be what its result is.
        result={answer.result as DiagnosisResult}
        units={diagnosisUnits(page.units)}
        fit={(id, draw) => <Twice id={id} draw={draw} />}
      />
      <DiagnosisBasis question={question} />
    </>
  );
}
