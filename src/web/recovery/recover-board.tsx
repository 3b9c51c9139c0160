import { unitChoice } from "../../report/index.ts";
import {
  type RecoveryFinding,
  recoveryFinding,
  type StageView,
  type TrialView,
} from "../../trial/index.ts";
import { Figure, Figures } from "../fluids/said.tsx";
import { isWide } from "../look/is-wide.ts";
import { view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";
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

/** Where it went: the ledger knows, so nobody is asked again. */
function Into({ finding, view: seen }: { finding: RecoveryFinding; view: TrialView }) {
  const mass = unitChoice(seen, preferences.value.system).thing("small-mass");
  if (finding.into.length === 0) return null;
  return (
    <section class="sheet service-sheet" aria-labelledby="into">
      <h2 id="into">Where is it now?</h2>
      <Figures>
        {finding.into.map((one) => (
          <Figure
            key={one.vessel}
            label={`${finding.content.name} went into`}
            value={one.name}
            small={mass.pair(one.mass)}
          />
        ))}
      </Figures>
    </section>
  );
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
  // In Restore, what was recovered lies behind once it is out.
  const open = isWide() || !isOut || stage.stage === "recover";
  return (
    <>
      {!isOut && where}
      <InsidePart finding={finding} view={seen} open={open} />
      {finding.air.length > 0 && <VesselAirPart finding={finding} view={seen} open={open} />}
      {isOut && <Into finding={finding} view={seen} />}
      {isOut && !finding.over && (
        <details class="fluid-folded recover-more">
          <summary>To recover more: which vessel, and where it stops</summary>
          {where}
        </details>
      )}
    </>
  );
}
