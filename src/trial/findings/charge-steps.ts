import {
  bandOf,
  type Running,
  runVehicle,
  type RunWork,
  type StopReason,
  type UnchargedCase,
} from "../../vehicle/index.ts";

/** A running system with some mass in it: kg, Pa absolute, K. */
export interface ChargeStep {
  readonly mass: number;
  /** `stopped`: the system does not run with so little or so much. */
  readonly state: "running" | "stopped" | "unresolved";
  readonly reason?: StopReason;
  readonly low?: number;
  readonly high?: number;
  readonly vent?: number;
  readonly superheat?: number;
  readonly subcooling?: number;
  readonly regime?: Running["regime"];
}

/** Pa absolute: what the high side should read at the target, and from where on to stop. */
export interface HighStop {
  readonly expected: number;
  readonly from: number;
  readonly to: number;
}

const STEPS = 12;

/** A cycling gauge is read while the clutch is engaged. */
const highOf = ({ high, highOn }: Running): number => highOn ?? high;

/**
 * What the gauges should read parked at raised idle while mass goes in.
 *
 * @param most kg: the last of twelve equal steps.
 */
export const runningSteps = (
  { composition, ...rest }: UnchargedCase,
  most: number,
  work: RunWork,
): readonly ChargeStep[] =>
  Array.from({ length: STEPS }, (_, k): ChargeStep => {
    const mass = (most * (k + 1)) / STEPS;
    const run = runVehicle({ ...rest, fill: { composition, charge: mass, air: 0 } }, work);
    switch (run.kind) {
      case "running": {
        const { low, vent, superheat, subcooling, regime } = run;
        const figures = { low, high: highOf(run), vent, superheat, subcooling, regime };
        return { mass, state: "running", ...figures };
      }
      case "stopped":
        return { mass, state: "stopped", reason: run.reason };
      case "unresolved":
      case "no-pack":
        return { mass, state: "unresolved" };
    }
  });

/**
 * The high side at the target with its band: above it something is wrong, whatever the scale says.
 *
 * @returns undefined when the system does not run at the target in this air.
 */
export function highStopOf(
  { composition, ...rest }: UnchargedCase,
  target: number,
  work: RunWork,
): HighStop | undefined {
  const request = { ...rest, fill: { composition, charge: target, air: 0 } };
  const run = runVehicle(request, work);
  if (run.kind !== "running") return undefined;
  const { limits } = bandOf(request, run, ["labelCharge"], work);
  const limit = run.highOn === undefined ? limits.high : (limits.highOn ?? limits.high);
  return limit && { expected: highOf(run), ...limit };
}
