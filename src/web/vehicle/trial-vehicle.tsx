import { useEffect } from "preact/hooks";
import { vehicleParameters } from "../../calculations/index.ts";
import { modelOf, type VehicleView } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { pathTo } from "../shell/route.ts";
import { KeepInTrial } from "./keep-in-trial.tsx";
import { typedOverrides } from "./overrides.ts";
import { VehicleBoard } from "./vehicle-board.tsx";
import type { Given } from "./vehicle-case.ts";
import { beginningWith, vehicleDraft } from "./vehicle-draft.ts";

/** Parameters that the log gives, as they would be typed. */
function refinedOf(vehicle: VehicleView | undefined): Readonly<Record<string, string>> {
  const choice = vehicle && modelOf(vehicle);
  if (!vehicle || choice?.kind !== "model") return {};
  const parameters = vehicleParameters(choice.vehicle.preset, vehicle.labelCharge);
  return typedOverrides(vehicle.model?.refined ?? {}, parameters);
}

/** The same from within a trial: its vehicle, its label, its air. */
export function TrialVehicle({ trial }: { readonly trial: string }) {
  const draft = vehicleDraft(trial);
  useEffect(() => void draft.start(), [trial]);
  const { atmosphere, vehicle } = view.value;
  const choice = vehicle && modelOf(vehicle);
  const own = beginningWith(draft, refinedOf(vehicle));
  const given: Given = {
    ...(choice?.kind === "model" && { preset: choice.vehicle.preset }),
    ...(vehicle && { labelCharge: vehicle.labelCharge }),
    fluid: vehicle?.labelRefrigerant ?? "R134a",
    barometer: atmosphere.value,
  };
  return (
    <main class="wide" id="main">
      <h1 tabIndex={-1}>What this vehicle should read</h1>
      {vehicle ? (
        <p class="lead">
          Begins with the trial’s vehicle, its label and its air. What is changed here stays here
          until you use it in the trial.
        </p>
      ) : (
        <p class="lead">
          This trial does not describe its vehicle yet.{" "}
          <a href={pathTo("trial", trial, "stage", "plan", "-")}>Describe it in Plan</a>, or choose
          a kind of vehicle here.
        </p>
      )}
      {choice?.kind === "none" && <p class="told">{choice.why} Choose the nearest kind below.</p>}
      <VehicleBoard draft={own} given={given} />
      <KeepInTrial trial={trial} draft={own} given={given} />
    </main>
  );
}
