import {
  restingPressure,
  type Running,
  runVehicle,
  type RunWork,
  type Saturation,
  type Start,
  type VehicleCase,
} from "../../vehicle/index.ts";
import type { Faulty } from "./hypotheses.ts";
import { inner } from "./quantities.ts";

/** What the gauges and thermometers show, in the order of `faultQuantities`, each as `inner` has it. */
export interface Prediction {
  readonly values: readonly number[];
  readonly regime: Running["regime"];
  /** A control holds the low side. */
  readonly held: boolean;
  readonly start: Start;
}

/** What a prediction needs in every run besides the case. */
export interface Label {
  /** Of the refrigerant on the label: a reader takes superheat and subcooling from its pressures. */
  readonly label: Saturation;
  readonly work: RunWork;
}

/** What it needs in one run. */
export interface Reader extends Label {
  /** Of the metal while the system rests, K. */
  readonly metal: number;
}

/**
 * What the instruments would show on a system.
 *
 * Superheat and subcooling are those of a reader who takes the label refrigerant's saturation at the gauge's
 * pressure: air in the system or another refrigerant gives them an apparent value.
 *
 * @returns undefined when the system does not run steadily.
 */
export function predict(
  { request, ventOffset }: Faulty,
  reader: Reader,
  start?: Start,
): Prediction | undefined {
  const run = runVehicle(request, reader.work, start);
  if (run.kind !== "running") return undefined;
  const resting = restingPressure(
    request.vehicle,
    request.fill,
    reader.metal,
    request.conditions.ambient,
  );
  if (typeof resting !== "number") return undefined;
  const { label } = reader;
  const high = run.highOn ?? run.high;
  const outlet = temperatureOf(run, "condenser-outlet");
  const suction = temperatureOf(run, "evaporator-outlet");
  return {
    values: [
      run.low,
      inner("high", high),
      run.vent + ventOffset,
      suction - label.dewT(run.low),
      // Taken from the mean pressure, at which the outlet's temperature stands too.
      label.bubbleT(run.high) - outlet,
      run.discharge,
      outlet,
      run.duty,
      resting,
    ],
    regime: run.regime,
    held: run.duty < 1,
    start: run.start,
  };
}

function temperatureOf({ cycle }: Running, at: Running["cycle"][number]["at"]): number {
  const point = cycle.find((each) => each.at === at);
  if (!point) throw new RangeError(`a running cycle has no ${at}`);
  return point.T;
}

/** Whether the duty can be read: a clutch is seen and heard, a displacement is not. */
export const showsDuty = ({ vehicle }: Pick<VehicleCase, "vehicle">): boolean =>
  vehicle.control !== "displacement";
