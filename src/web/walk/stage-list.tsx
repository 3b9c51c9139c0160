import type { StageView } from "../../trial/index.ts";
import { looksFurther } from "../shell/first-look.ts";
import { view } from "../shell/log-keeper.ts";
import { pathTo } from "../shell/route.ts";
import { isAt, stageParts, statusWord } from "./stage-key.ts";
import { StatusMark } from "./status-mark.tsx";

interface Props {
  readonly trial: string;
  readonly parts: readonly string[];
}

/** Stages in the order of the job; Recover to Run stand together under their product. */
export function StageList({ trial, parts }: Props) {
  const { stages, products } = view.value;
  return (
    <ol class="stage-list">
      {stages.map((stage, i) => {
        const opensRound = stage.round !== undefined && stages[i - 1]?.round !== stage.round;
        const product = products.find(({ id }) => id === stage.round);
        return (
          <li
            key={`${stage.stage} ${stage.round ?? ""}`}
            class={stage.round === undefined ? "" : "in-round"}
          >
            {opensRound && <p class="round-name">Round of {product?.name ?? "a product"}</p>}
            <StageLink
              trial={trial}
              stage={stage}
              here={parts[0] === "stage" && isAt(stage, parts)}
            />
          </li>
        );
      })}
    </ol>
  );
}

interface LinkProps {
  readonly trial: string;
  readonly stage: StageView;
  readonly here: boolean;
}

function StageLink({ trial, stage, here }: LinkProps) {
  const open = stage.requirements.filter(({ met }) => !met).length;
  // Before the loggers' files are read, what a stage still needs is not known: no mark says that it is open.
  const known = looksFurther.value || stage.status === "done";
  const status = known ? stage.status : "not-started";
  return (
    <a
      class={here ? "stage-link is-here" : "stage-link"}
      href={pathTo("trial", trial, ...stageParts(stage))}
      aria-current={here ? "page" : undefined}
    >
      <StatusMark status={status} />
      <span class="stage-link-name">{stage.title}</span>
      <small class={status === "not-started" ? "visually-hidden" : ""}>
        {!known ? "being read" : status === "open" ? `${open} to do` : statusWord(stage)}
      </small>
    </a>
  );
}
