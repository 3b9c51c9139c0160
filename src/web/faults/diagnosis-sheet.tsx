import type { ComponentChildren } from "preact";
import type { Answer, DiagnosisResult } from "../../calculations/index.ts";
import { DiagnosisView, type DiagnosisUnits } from "../../report/index.ts";
import { Basis, CautionLines, NoAnswer } from "../fluids/said.tsx";
import { Fit } from "../look/fit.tsx";

interface Props {
  readonly id: string;
  readonly answer: Answer | undefined;
  readonly current: boolean;
  readonly units: DiagnosisUnits;
}

/** The first cautions are those of hands near a running engine: they stand before the next reading is taken. */
const moving = 2;

const fit = (
  id: string,
  draw: (id: string, width: number) => ComponentChildren,
): ComponentChildren => <Fit>{(width) => draw(id, width)}</Fit>;

/** What `diagnose` answered, with the cautions at hand below its verdict: the readings are taken on a running engine. */
export function DiagnosisSheet({ id, answer, current, units }: Props) {
  if (!answer) {
    return (
      <p class="quiet" role="status">
        Comparing with each fault…
      </p>
    );
  }
  if (answer.kind !== "answer") return <NoAnswer answer={answer} />;
  const atHand = answer.cautions.slice(0, moving);
  return (
    <div class={current ? "vehicle-bands" : "vehicle-bands is-stale"} aria-busy={!current}>
      <DiagnosisView
        id={id}
        // The calculation's own schema is tested to be what its result is.
        result={answer.result as DiagnosisResult}
        units={units}
        fit={fit}
        atHand={<CautionLines cautions={atHand} />}
      />
      <Basis answers={[answer]} without={atHand} />
    </div>
  );
}
