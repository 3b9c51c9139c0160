import { useState } from "preact/hooks";
import { identifyInput, type IdentifyResult } from "../../calculations/index.ts";
import {
  blendsSpelled,
  contentsFinding,
  evidenceWords,
  FamilyBars,
  familyShares,
  familyTable,
  overallParts,
  PARTS_TITLE,
  PartIntervals,
  partTable,
  type UnitChoice,
  unitChoice,
} from "../../report/index.ts";
import { type ContentsEvidence, contentsOf, type StageView } from "../../trial/index.ts";
import type { Job } from "../engine/batch.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { Basis, CannotCompute, NoAnswer } from "../fluids/said.tsx";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import { view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";
import { CautionMark } from "../walk/caution-mark.tsx";
import { RunsChoice } from "./runs-choice.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
}

/** What is in the can, by what the log holds so far. */
export function ContentsBoard({ stage }: Props) {
  const seen = view.value;
  if (stage.round === undefined) {
    return (
      <p class="empty">List a product in Plan first: this stage is about what is inside it.</p>
    );
  }
  const evidence = contentsOf(seen, stage.round);
  const measured = evidence.items.some((item) => item.evidence.kind !== "label");
  return measured ? (
    <Weighed
      evidence={evidence}
      name={seen.products.find(({ id }) => id === stage.round)?.name ?? "the product"}
      units={unitChoice(seen, preferences.value.system)}
    />
  ) : (
    <p class="empty">
      Nothing was measured yet that says what is inside. The can’s pressure with the temperature of
      its liquid comes first; a second temperature, the can’s mass and volume and a tester follow.
    </p>
  );
}

interface WeighedProps {
  readonly evidence: ContentsEvidence;
  readonly name: string;
  readonly units: UnitChoice;
}

function Weighed({ evidence: all, name, units }: WeighedProps) {
  const [withRuns, choose] = useState(true);
  const runs = all.items.filter(({ evidence: { kind } }) => kind === "running");
  const items = withRuns ? all.items : all.items.filter((item) => !runs.includes(item));
  const evidence = { ...all, items };
  const input = identifyInput(evidence);
  const jobs: readonly Job[] = input ? [{ name: "identify", input }] : [];
  const { answers, current, failed } = useAnswers(jobs);
  const [answer] = answers;
  // The calculation's own schema is tested to be what its result is.
  const result = answer?.kind === "answer" ? (answer.result as IdentifyResult) : undefined;
  return (
    <section class="sheet" aria-labelledby="contents">
      <h2 id="contents">What is in {name}</h2>
      <CannotCompute failed={failed} />
      <NoAnswer answer={answer} />
      {answer?.kind === "invalid" && (
        <p class="told">
          A reading lies outside of what can be weighed here:{" "}
          {answer.issues.map(({ accepted }) => accepted).join("; ")}.
        </p>
      )}
      {!current && !failed && (
        <p class="quiet" role="status">
          Weighing {evidence.items.length} pieces of evidence… <progress />
        </p>
      )}
      {result && (
        <div class={current ? "contents" : "contents is-stale"}>
          <Answer result={result} />
          <Said evidence={evidence} result={result} units={units} />
          {runs.length > 0 && <RunsChoice said={result.runs} {...{ withRuns, choose }} />}
          <Next result={result} />
          <Basis answers={answers} without={result.hazards.map(({ says }) => says)} />
        </div>
      )}
      {evidence.unused.map(({ entry, because }) => (
        <p class="told" key={entry}>
          A reading is not used. {because}
        </p>
      ))}
    </section>
  );
}

const NOTE =
  "Coldproof. Probabilities of the contents from the readings at rest, what was weighed, what testers said and, weakly, runs of the vehicle; the label counts as a prior only.";

function Answer({ result }: { readonly result: IdentifyResult }) {
  const bars = {
    id: "contents-families",
    title: contentsFinding(result),
    families: familyShares(result),
  };
  const spelled = blendsSpelled(result);
  return (
    <>
      <p class="lead">{result.says}</p>
      {result.hazards.length > 0 && (
        <ul class="caution-lines">
          {result.hazards.map(({ kind, says }) => (
            <li key={kind}>
              <CautionMark severity="danger" />
              <span>{says}</span>
            </li>
          ))}
        </ul>
      )}
      <PictureSheet
        title={bars.title}
        note={NOTE}
        table={familyTable({ ...bars, width: 0 })}
        draw={(width, height) => (
          <FamilyBars {...bars} width={width} {...(height !== undefined && { height })} />
        )}
      />
      <Parts result={result} />
      <p>{result.indistinguishable.says}</p>
      {spelled.length > 0 && <p class="quiet">By mass: {spelled.join("; ")}.</p>}
    </>
  );
}

function Parts({ result }: { readonly result: IdentifyResult }) {
  const intervals = { id: "contents-parts", title: PARTS_TITLE, parts: overallParts(result) };
  if (intervals.parts.length === 0) return null;
  return (
    <PictureSheet
      title={intervals.title}
      note={NOTE}
      table={partTable({ ...intervals, width: 0 })}
      draw={(width, height) => (
        <PartIntervals {...intervals} width={width} {...(height !== undefined && { height })} />
      )}
    />
  );
}

interface SaidProps {
  readonly evidence: ContentsEvidence;
  readonly result: IdentifyResult;
  readonly units: UnitChoice;
}

/** What each piece of evidence says beside all the others. */
const Said = ({ evidence, result, units }: SaidProps) => (
  <>
    <h3>What each piece of evidence says</h3>
    <dl class="contents-said">
      {result.contributions.map(({ evidence: k, says }) => {
        const item = evidence.items[k];
        return item ? (
          <div key={k}>
            <dt>{evidenceWords(item.evidence, units)}</dt>
            <dd>{says}</dd>
          </div>
        ) : null;
      })}
    </dl>
  </>
);

/** Measurements that would tell most for their time, the first three open, each with how it is done. */
const Next = ({ result }: { readonly result: IdentifyResult }) => (
  <>
    <h3>What to measure next</h3>
    {result.next.length === 0 ? (
      <p>Nothing that is known here would tell more.</p>
    ) : (
      <ol class="contents-next">
        {result.next.slice(0, 4).map(({ id, title, says, minutes, share }) => (
          <li key={id}>
            <strong>{title}</strong>
            <span class="quiet">
              About {minutes} min; should settle {openWords(share)} of what is open.
            </span>
            <span>{says}</span>
          </li>
        ))}
      </ol>
    )}
  </>
);

const openWords = (share: number): string =>
  share < 0.05 ? "less than a twentieth" : `${(100 * share).toFixed(0)} %`;
