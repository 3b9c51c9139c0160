import type { StageView } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { actFor, actsAt } from "./acts.ts";
import { StatusMark } from "./status-mark.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
}

/** What the stage needs, met or missing; a tap goes to the field that would meet it. */
export function RequirementList({ trial, stage }: Props) {
  const where = actsAt(trial, stage, view.value);
  if (stage.requirements.length === 0) return null;
  return (
    <section aria-labelledby="needs">
      <h2 id="needs">What this stage needs</h2>
      <ul class="requirements">
        {stage.requirements.map((requirement) => (
          <li key={requirement.id}>
            <a class="row requirement" href={actFor(where, requirement).href}>
              <StatusMark status={requirement.met ? "done" : "not-started"} />
              <span>
                <strong>{requirement.text}</strong>
                <small>
                  <span class="visually-hidden">{requirement.met ? "Met: " : "Missing: "}</span>
                  {requirement.detail}
                </small>
              </span>
              <svg class="chevron" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
                <path d="M6 3l5 5-5 5" />
              </svg>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
