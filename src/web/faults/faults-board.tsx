import { DiagnosisBasis, diagnosisUnits, unitChoice } from "../../report/index.ts";
import { type FaultQuestion, faultQuestion, type StageView } from "../../trial/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { CannotCompute } from "../fluids/said.tsx";
import { view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";
import { DiagnosisSheet } from "./diagnosis-sheet.tsx";

/** What is wrong with the vehicle, from all runs of Prove or Restore together. */
export function FaultsBoard({ stage }: { readonly stage: StageView }) {
  const question = faultQuestion(view.value, stage.stage === "restore" ? "restore" : "prove");
  return (
    <section class="sheet" aria-labelledby="faults-head">
      <h2 id="faults-head">Is something wrong with the vehicle?</h2>
      {question ? (
        <AllRuns question={question} />
      ) : (
        <p class="empty">
          Record a run on the label refrigerant and read low side, high side and vent. Then each
          fault is compared with what a sound vehicle would show. A run at idle and one on the road
          together tell far more than either.
        </p>
      )}
    </section>
  );
}

function AllRuns({ question }: { readonly question: FaultQuestion }) {
  const jobs = question.kind === "asked" ? [{ name: "diagnose", input: question.input }] : [];
  const { answers, current, failed } = useAnswers(jobs);
  if (question.kind === "none") return <p class="told">{question.why}</p>;
  return (
    <>
      <DiagnosisBasis question={question} />
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
