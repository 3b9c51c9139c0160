import type { Requirement, StageView } from "../../trial/index.ts";
import { Fold } from "../look/fold.tsx";
import { isWide } from "../look/is-wide.ts";
import { view } from "../shell/log-keeper.ts";
import { actFor, actsAt } from "./acts.ts";
import { StatusMark } from "./status-mark.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
}

/** What the stage needs, missing or met; a tap goes to the field that would meet it. */
export function RequirementList({ trial, stage }: Props) {
  const { requirements } = stage;
  const where = actsAt(trial, stage, view.value);
  const missing = requirements.filter(({ met }) => !met);
  const met = requirements.filter((one) => one.met);
  if (requirements.length === 0) return null;
  return (
    <section aria-labelledby="needs">
      <h2 id="needs">What this stage needs</h2>
      {missing.length > 0 && <Rows requirements={missing} where={where} />}
      {met.length > 0 && (
        <Fold
          title={metWords(met.length, requirements.length)}
          open={missing.length > 0 && isWide()}
        >
          <Rows requirements={met} where={where} />
        </Fold>
      )}
    </section>
  );
}

function metWords(met: number, all: number): string {
  if (met < all) return `${met} of ${all} ${met === 1 ? "is" : "are"} met`;
  return all === 1 ? "It is met" : `All ${all} are met`;
}

interface RowsProps {
  readonly requirements: readonly Requirement[];
  readonly where: Parameters<typeof actFor>[0];
}

const Rows = ({ requirements, where }: RowsProps) => (
  <ul class="requirements">
    {requirements.map((requirement) => (
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
);
