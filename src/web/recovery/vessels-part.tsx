import { unitChoice, type VerdictKind, VerdictWord } from "../../report/index.ts";
import type { RecoveryFinding, TrialView, VesselFit } from "../../trial/index.ts";
import { preferences } from "../shell/preferences.ts";
import { CautionMark } from "../walk/caution-mark.tsx";

interface Props {
  readonly finding: RecoveryFinding;
  readonly view: TrialView;
}

/** kg: two decimals in kg and lb, as a floor scale shows. */
const SHOWN = 0.06;

const verdicts: Readonly<Record<VesselFit["verdict"], readonly [VerdictKind, string]>> = {
  may: ["within", "may take it"],
  check: ["undecided", "look first"],
  no: ["higher", "must not"],
};

/** Vessels that can, before those that cannot. */
const order: readonly VesselFit["verdict"][] = ["may", "check", "no"];

/** Each listed vessel against what comes out of the vehicle. */
export function VesselsPart({ finding, view: seen }: Props) {
  const cylinders = finding.vessels.filter(({ kind }) => kind !== "can");
  const sorted = order.flatMap((verdict) =>
    cylinders.filter((vessel) => vessel.verdict === verdict),
  );
  return (
    <section class="sheet service-sheet" aria-labelledby="vessels">
      <h2 id="vessels">Which vessel may take {finding.content.name}?</h2>
      {sorted.length === 0 && (
        <p class="empty">
          No cylinder is listed. List the cylinder with tare, water capacity, rated pressure and
          retest date before a valve is opened.
        </p>
      )}
      <ul class="vessel-fits">
        {sorted.map((vessel) => (
          <li key={vessel.id} class="vessel-fit">
            <p class="vessel-fit-head">
              <strong>{vessel.name}</strong>
              <VerdictWord kind={verdicts[vessel.verdict][0]} word={verdicts[vessel.verdict][1]} />
            </p>
            {vessel.verdict !== "no" && <Limits vessel={vessel} view={seen} />}
            <Reasons vessel={vessel} />
          </li>
        ))}
      </ul>
      <p class="quiet">
        A “may” is no permission: the mark on the vessel, local law and licensed practice come
        first. A disposable can must never be filled again.
      </p>
    </section>
  );
}

const Reasons = ({ vessel }: { readonly vessel: VesselFit }) =>
  vessel.reasons.length === 0 ? null : (
    <ul class="vessel-reasons">
      {vessel.reasons.map(({ severity, sentence }) => (
        <li key={sentence}>
          <CautionMark severity={severity === "stop" ? "danger" : "caution"} />
          <span>{sentence}</span>
        </li>
      ))}
    </ul>
  );

function Limits({ vessel, view: seen }: { readonly vessel: VesselFit; readonly view: TrialView }) {
  const mark = vessel.stopMark;
  if (!mark) return null;
  const units = unitChoice(seen, preferences.value.system);
  const mass = units.thing("mass");
  const { oldRule, pressureWarm, liquidFullTemperature } = mark.limit;
  const old = `The old label rule without density would stop at ${mass.text(oldRule.gross, SHOWN)}: ${
    oldRule.overfills ? "too much of this refrigerant" : "less than it may hold"
  }.`;
  return (
    <>
      <p>
        Stops at <strong class="figure">{mass.text(mark.maxGross, SHOWN)}</strong> gross, room for{" "}
        <span class="figure">{mass.text(Math.max(0, mark.room), SHOWN)}</span>.
        {mark.asLightest && " Counted as propane, the lightest it could be."}
      </p>
      <details class="fluid-folded">
        <summary>How this limit comes about</summary>
        <p>
          80 % liquid at 25 °C, never full of liquid up to 55 °C.
          {liquidFullTemperature !== undefined &&
            ` Filled so far it would be full of liquid at ${units.quantity("metal-temperature").text(liquidFullTemperature)}.`}{" "}
          At 54.4 °C it shows {units.thing("pressure").text(pressureWarm)}. {old}
        </p>
        <p class="quiet">
          Sources: AHRI Guideline K (from memory, cross-checked); 49 CFR 173.304(b) and 173.304a(c);
          liquid density from the equation of state.
        </p>
      </details>
    </>
  );
}
