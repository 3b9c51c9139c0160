import type { StageView } from "../../trial/index.ts";
import { cautionsNow } from "../engine/treated.ts";
import { Weighing } from "../engine/weighing.tsx";
import { view } from "../shell/log-keeper.ts";
import { pathTo } from "../shell/route.ts";
import { Cautions } from "./caution-box.tsx";
import { Evidence } from "./evidence.tsx";
import { LastHold } from "./last-hold.tsx";
import { MoreActs } from "./more-acts.tsx";
import { NextCard } from "./next-card.tsx";
import { RequirementList } from "./requirement-list.tsx";
import { roundPart } from "./stage-key.ts";
import { Step } from "./step.tsx";
import { later } from "../shell/later.tsx";

/** What stages compute is large; what they ask for must not wait for it. */
const StageBoards = later(async () => (await import("./stage-board.tsx")).StageBoards);

interface Props {
  readonly trial: string;
  readonly stage: string;
  readonly round: string;
  readonly step: readonly string[];
}

/** One stage: what must be true at its end, what is missing, and the step that is being done. */
export function StagePage({ trial, stage: name, round, step }: Props) {
  const seen = view.value;
  const found = seen.stages.find((one) => one.stage === name && roundPart(one.round) === round);
  if (!found) return <NoStage trial={trial} />;
  const stage = { ...found, cautions: cautionsNow(found) };
  const doing = step.length > 0;
  return (
    <>
      {weighs(found) && <Weighing />}
      <main class={doing ? "walk has-action" : "walk"} id="main">
        {doing ? (
          <Step trial={trial} stage={stage} step={step} />
        ) : (
          <Overview trial={trial} stage={stage} />
        )}
      </main>
      <Evidence trial={trial} stage={stage} step={step} />
    </>
  );
}

const isStreaming = ({ stage, round }: StageView): boolean =>
  view.value.traces.some((trace) => trace.stream && trace.stage === stage && trace.round === round);

/** Where cautions hang on what is in the cans; not while instruments send, when each second counts. */
const weighs = (stage: StageView): boolean =>
  stage.cautions.some(({ id }) => id === "not-proven") && !isStreaming(stage);

export function StageHeading({ stage }: { readonly stage: StageView }) {
  const seen = view.value;
  const product = seen.products.find(({ id }) => id === stage.round);
  const met = stage.requirements.filter((one) => one.met).length;
  return (
    <header class="stage-head">
      <p class="eyebrow">
        {product ? `Round of ${product.name}` : "Stage"}
        {stage.requirements.length > 0 && (
          <span class="figure">
            {" "}
            · {met} of {stage.requirements.length} done
          </span>
        )}
      </p>
      <h1 tabIndex={-1}>{stage.title}</h1>
      <p class="end-state">
        <span class="end-state-label">True at its end:</span> {stage.endState}
      </p>
    </header>
  );
}

interface OverviewProps {
  readonly trial: string;
  readonly stage: StageView;
}

function Overview({ trial, stage }: OverviewProps) {
  // While instruments send, what they read comes before what is still to do.
  const streaming = isStreaming(stage);
  return (
    <>
      <StageHeading stage={stage} />
      {streaming && <StageBoards trial={trial} stage={stage} streaming />}
      <LastHold stage={stage} />
      <NextCard trial={trial} stage={stage} />
      <Cautions cautions={stage.cautions} />
      <RequirementList trial={trial} stage={stage} />
      {!streaming && <StageBoards trial={trial} stage={stage} streaming={false} />}
      <MoreActs trial={trial} stage={stage} />
    </>
  );
}

function NoStage({ trial }: { readonly trial: string }) {
  return (
    <main class="walk" id="main">
      <h1 tabIndex={-1}>This stage is not there</h1>
      <p>Its product may have been withdrawn. Choose another stage.</p>
      <a class="button" href={pathTo("trial", trial, "stages")}>
        All stages
      </a>
    </main>
  );
}
