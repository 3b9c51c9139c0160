import { useEffect } from "preact/hooks";
import type { PairReading } from "../../report/index.ts";
import type { ReadingView } from "../../trial/index.ts";
import { stageNames } from "../../report/index.ts";
import { view } from "../shell/log-keeper.ts";
import { startFluidDraft } from "./fluid-draft.ts";
import { FluidsBoard } from "./fluids-board.tsx";

/** The same from within a trial: its air, its label refrigerant, its readings at rest. */
export function TrialFluids() {
  useEffect(() => void startFluidDraft(), []);
  const { atmosphere, vehicle, readings } = view.value;
  return (
    <main class="wide" id="main">
      <h1 tabIndex={-1}>Fluids and blends</h1>
      <p class="lead">
        Gauges count from this trial’s air; its readings at rest are marked in the chart.
      </p>
      <FluidsBoard
        initial={vehicle?.labelRefrigerant ?? "R134a"}
        air={{ barometer: atmosphere.value }}
        atmosphere={atmosphere.value}
        readings={readingsAtRest(readings)}
      />
    </main>
  );
}

/** The last pressure at rest of each stage with the last metal temperature there. */
function readingsAtRest(readings: readonly ReadingView[]): readonly PairReading[] {
  const placeOf = ({ stage, round }: ReadingView): string => `${stage} ${round ?? ""}`;
  const places = [...new Set(readings.map(placeOf))];
  return places.flatMap((place): PairReading[] => {
    const last = (quantity: ReadingView["quantity"]): ReadingView | undefined =>
      readings.findLast((one) => placeOf(one) === place && one.quantity === quantity);
    const [p, T] = [last("static-low") ?? last("static-high"), last("metal-temperature")];
    if (!p || !T) return [];
    return [
      {
        name: `${stageNames[p.stage]}, at rest`,
        p: { value: p.value, u: p.u ?? 0 },
        T: { value: T.value, u: T.u ?? 0 },
      },
    ];
  });
}
