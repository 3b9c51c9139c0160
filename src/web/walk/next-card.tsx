import type { StageView } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { pathTo } from "../shell/route.ts";
import { actFor, actsAt } from "./acts.ts";
import { stageParts } from "./stage-key.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
}

/** The one thing that is needed next, with its act. */
export function NextCard({ trial, stage }: Props) {
  const { stages } = view.value;
  const next = stage.requirements.find(({ met }) => !met);
  if (next) {
    const act = actFor(actsAt(trial, stage, view.value), next);
    return (
      <section class="next" aria-label="Needed next">
        <p class="eyebrow">Needed next</p>
        <p class="next-text">{next.text}</p>
        <p class="quiet">{next.detail}</p>
        <a class="button button-main" href={act.href}>
          {act.label}
        </a>
      </section>
    );
  }
  const here = stages.findIndex((one) => one.stage === stage.stage && one.round === stage.round);
  const after = stages[here + 1];
  if (stage.requirements.length === 0 || here < 0 || !after) return null;
  return (
    <section class="next is-done" aria-label="Stage done">
      <p class="next-text">Everything this stage needs is in the log.</p>
      <a class="button button-main" href={pathTo("trial", trial, ...stageParts(after))}>
        Go to {after.title}
      </a>
    </section>
  );
}
