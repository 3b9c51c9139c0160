import { useState } from "preact/hooks";
import { diagnosisUnits, unitChoice } from "../../report/index.ts";
import { type FaultQuestion, faultQuestions, type StageView } from "../../trial/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { CannotCompute } from "../fluids/said.tsx";
import { view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";
import { DiagnosisSheet } from "./diagnosis-sheet.tsx";

/** What is wrong with the vehicle, from a run of Prove or Restore. */
export function FaultsBoard({ stage }: { readonly stage: StageView }) {
  const seen = view.value;
  const name = stage.stage === "restore" ? "restore" : "prove";
  const questions = faultQuestions(seen, name);
  const usual = questions.findLast(({ kind }) => kind === "asked") ?? questions.at(-1);
  const [chosen, setChosen] = useState<string>();
  const question = questions.find(({ run }) => run.id === chosen) ?? usual;
  return (
    <section class="sheet" aria-labelledby="faults-head">
      <h2 id="faults-head">Is something wrong with the vehicle?</h2>
      {questions.length > 1 && question && (
        <FieldFrame id="faults-run" label="From the run">
          <select
            id="faults-run"
            class="pick"
            value={question.run.id}
            onChange={(event) => {
              setChosen(event.currentTarget.value);
            }}
          >
            {questions.map(({ run }) => (
              <option key={run.id} value={run.id} selected={run.id === question.run.id}>
                {run.name}
              </option>
            ))}
          </select>
        </FieldFrame>
      )}
      {question ? (
        <OneRun question={question} />
      ) : (
        <p class="empty">
          Record a run on the label refrigerant and read low side, high side and vent. Then each
          fault is compared with what a sound vehicle would show.
        </p>
      )}
    </section>
  );
}

function OneRun({ question }: { readonly question: FaultQuestion }) {
  const jobs = question.kind === "asked" ? [{ name: "diagnose", input: question.input }] : [];
  const { answers, current, failed } = useAnswers(jobs);
  if (question.kind === "none") {
    return (
      <p class="told">
        {question.run.name}: {question.why}
      </p>
    );
  }
  return (
    <>
      <p class="quiet">
        Run: {question.run.name}.{" "}
        {question.baseline.length > 0 &&
          `The runs of Prove are its baseline: ${question.baseline.join(", ")}. `}
        {question.assumed.length > 0 && `Assumed: ${question.assumed.join("; ")}.`}
      </p>
      <CannotCompute failed={failed} />
      <DiagnosisSheet
        id="faults"
        answer={answers[0]}
        current={current}
        units={diagnosisUnits(unitChoice(view.value, preferences.value.system))}
      />
    </>
  );
}
