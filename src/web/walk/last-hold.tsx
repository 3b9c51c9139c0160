import type { StageView } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { findingOf, HoldVerdict } from "../traces/hold-verdict.tsx";

/** What the newest hold of this stage means and asks for: before the way on, because it may forbid it. */
export function LastHold({ stage }: { readonly stage: StageView }) {
  const last = view.value.traces.findLast(
    (trace) => trace.kind === "hold" && trace.stage === stage.stage && trace.round === stage.round,
  );
  const finding = last && findingOf(view.value, last);
  if (!finding) return null;
  return (
    <section class="last-hold" aria-label="The last hold">
      <p>
        <strong>The last hold:</strong> <HoldVerdict finding={finding} />
      </p>
      <p>{finding.next}</p>
    </section>
  );
}
