import {
  mixingWarning,
  type StageView,
  type TrialView,
  vehicleAccount,
} from "../../trial/index.ts";
import type { Draft } from "../shell/drafts.ts";
import { Cautions } from "../walk/caution-box.tsx";
import { CautionMark } from "../walk/caution-mark.tsx";
import { cautionsBefore } from "../walk/caution-places.ts";

interface Props {
  readonly view: TrialView;
  readonly draft: Draft;
  /** Absent at a correction: the valves were opened long ago. */
  readonly stage?: StageView | undefined;
}

/** What speaks against this pair of vessels, and the cautions of this way of the transfer. */
export function Concerns({ view, draft, stage }: Props) {
  const from = draft["from"] ?? "";
  const to = draft["to"] ?? "";
  const concerns = from === "" || to === "" ? [] : mixingWarning(view, from, to);
  return (
    <div aria-live="polite" class="concerns">
      {concerns.map((concern) => (
        <div
          class={concern.severity === "stop" ? "concern concern-stop" : "concern"}
          key={concern.kind}
        >
          <CautionMark severity={concern.severity === "stop" ? "danger" : "caution"} />
          <p>
            <strong>{concern.severity === "stop" ? "Stop. " : "Check. "}</strong>
            {concern.sentence}
          </p>
        </div>
      ))}
      {stage && from === vehicleAccount && (
        <Cautions cautions={cautionsBefore(stage, "transfer-out")} />
      )}
      {stage && to === vehicleAccount && (
        <Cautions cautions={cautionsBefore(stage, "transfer-in")} />
      )}
    </div>
  );
}
