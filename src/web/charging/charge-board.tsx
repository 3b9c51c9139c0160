import { unitChoice } from "../../report/index.ts";
import { chargingFinding, type StageView } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";
import { pathTo } from "../shell/route.ts";
import { CansPart } from "./cans-part.tsx";
import { OnTheWayPart } from "./on-the-way-part.tsx";
import { TargetPart } from "./target-part.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
}

/** How much, out of how many cans, in which phase, what to expect on the way, and where to stop. */
export function ChargeBoard({ trial, stage }: Props) {
  const seen = view.value;
  const finding = chargingFinding(seen, stage);
  if (finding.kind === "missing") {
    const { round = "-" } = stage;
    const unknown =
      seen.vehicle && seen.products.some(({ id, fluid }) => id === round && fluid === undefined);
    return (
      <p class="empty">
        {finding.why}{" "}
        {unknown && <a href={pathTo("trial", trial, "stage", "identify", round)}>Go to Identify</a>}
      </p>
    );
  }
  const units = unitChoice(seen, preferences.value.system);
  return (
    <>
      <TargetPart finding={finding} units={units} />
      <CansPart finding={finding} units={units} />
      <OnTheWayPart finding={finding} units={units} />
    </>
  );
}
