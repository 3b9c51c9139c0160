import { recoveryFinding, type StageView } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { FillWatch } from "./fill-watch.tsx";
import { InsidePart } from "./inside-part.tsx";
import { VesselAirPart } from "./vessel-air-part.tsx";
import { VesselsPart } from "./vessels-part.tsx";

/** The local day, as retest dates are written. */
function today(): string {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Which vessel may take it, where the scale stops, what is still inside, oil and air. */
export function RecoverBoard({ stage }: { readonly stage: StageView }) {
  const seen = view.value;
  const finding = recoveryFinding(seen, stage, today());
  if (!finding) {
    return (
      <p class="empty">
        Describe the vehicle first: its label says what comes out and where a cylinder has to stop.
      </p>
    );
  }
  const where = (
    <>
      <VesselsPart finding={finding} view={seen} />
      <FillWatch finding={finding} view={seen} stage={stage} />
    </>
  );
  // Once it is out, what is still inside is the question; there may be more to come out.
  const isOut = stage.requirements.some(({ id, met }) => id === "recovered" && met);
  return (
    <>
      {!isOut && where}
      <InsidePart finding={finding} view={seen} />
      {finding.air.length > 0 && <VesselAirPart finding={finding} view={seen} />}
      {isOut && (
        <details class="fluid-folded recover-more">
          <summary>To recover more: which vessel, and where it stops</summary>
          {where}
        </details>
      )}
    </>
  );
}
