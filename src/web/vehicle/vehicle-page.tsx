import { useEffect } from "preact/hooks";
import { TopBar } from "../shell/top-bar.tsx";
import { VehicleBoard } from "./vehicle-board.tsx";
import { vehicleDraft } from "./vehicle-draft.ts";

/** Any vehicle, without a trial. */
export function VehiclePage() {
  const draft = vehicleDraft();
  useEffect(() => void draft.start(), []);
  return (
    <>
      <TopBar title="What a vehicle should read" />
      <main class="page" id="main">
        <h1 tabIndex={-1}>What this vehicle should read</h1>
        <p class="lead">
          Gauges and vents on a day like this, with this much of this fluid, before anybody charges
          anything.
        </p>
        <VehicleBoard draft={draft} given={{ fluid: "R134a" }} />
      </main>
    </>
  );
}
