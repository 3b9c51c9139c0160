import { siUnit } from "../../units/index.ts";
import type { Conditions, ReturnAir } from "../../vehicle/index.ts";
import type { ReadingQuantity } from "../events.ts";
import { quantityDimension } from "../dimensions.ts";
import type { RunView, TrialView } from "../view.ts";
import { companion } from "../verdict/context.ts";
import type { ReadingInContext } from "../verdict/view.ts";

/** Conditions of a reading, and in words what had to be assumed because nobody read it. */
export interface KnownConditions {
  readonly conditions: Conditions;
  /** Outside air, K, and the unit to show it in: the one condition that is never assumed. */
  readonly outside: { readonly value: number; readonly unit: string };
  readonly assumed: readonly string[];
}

/** Stand-ins, each a choice: common practice, no source. */
const standIn = {
  humidity: 0.5,
  idle: 750 / 60,
  raisedIdle: 1500 / 60,
  road: 1700 / 60,
  roadSpeed: 64 / 3.6,
  parkedPullDown: 0.45,
  roadPullDown: 0.9,
} as const;
const blowerShare = { low: 0.35, medium: 0.65, high: 1, unknown: 1 } as const;
const cabinShare = { recirculation: 1, outside: 0, unknown: 1 } as const;

interface Known {
  readonly value: number;
  readonly unit: string;
}

/** Conditions that belong to one run and to no other. */
const ofRunAlone: ReadonlySet<ReadingQuantity> = new Set([
  "vehicle-speed",
  "engine-speed",
  "return-air-temperature",
  "return-air-humidity",
]);

/** A condition of the reading: read in its run, settled in its run's trace, or read near it in the same stage. */
export function known(
  view: TrialView,
  reading: ReadingInContext,
  quantity: ReadingQuantity,
): Known | undefined {
  const run = view.runs.find(({ id }) => id === reading.run);
  const settled = run?.values.find((each) => each.quantity === quantity && each.form === "steady");
  const nearest = companion(view, reading, quantity);
  // Weather is common to the runs of a day; what another run's own speed or cabin was is not.
  const ofOther = nearest?.run !== undefined && nearest.run !== reading.run;
  const near = ofOther && ofRunAlone.has(quantity) ? undefined : nearest;
  if (settled && near?.run !== reading.run) {
    const series = view.traces
      .find(({ id }) => id === run?.trace)
      ?.series.find((each) => each.quantity === quantity);
    return { value: settled.value, unit: series?.unit ?? siUnit(quantityDimension[quantity]) };
  }
  return near && { value: near.value, unit: near.typed.unit };
}

/** @returns undefined while the outside temperature is not known. */
export function conditionsOf(
  view: TrialView,
  reading: ReadingInContext,
): KnownConditions | undefined {
  const outside = known(view, reading, "outside-temperature");
  if (!outside) return undefined;
  const run = view.runs.find(({ id }) => id === reading.run);
  const assumed: string[] = [];
  const read = (quantity: ReadingQuantity, otherwise: number, words: string): number => {
    const found = known(view, reading, quantity);
    if (!found) assumed.push(words);
    return found?.value ?? otherwise;
  };
  const onRoad = run?.condition.startsWith("road") ?? false;
  const conditions: Conditions = {
    ambient: outside.value,
    humidity: read("outside-humidity", standIn.humidity, "outside humidity 50 %"),
    pAir: view.atmosphere.value,
    speed: onRoad
      ? read("vehicle-speed", standIn.roadSpeed, "road speed 64 km/h (40 mph)")
      : (known(view, reading, "vehicle-speed")?.value ?? 0),
    engineSpeed: read("engine-speed", ...engineSpeed(run, onRoad)),
    blower: blowerShare[run?.blower ?? "unknown"],
    recirculation: cabinShare[run?.airSource ?? "unknown"],
    returnAir: returnAir(view, reading, onRoad, assumed),
    occupants: 1,
  };
  if ((run?.blower ?? "unknown") === "unknown") assumed.push("blower full on");
  if ((run?.airSource ?? "unknown") === "unknown") assumed.push("recirculation");
  return { conditions, outside, assumed };
}

function engineSpeed(run: RunView | undefined, onRoad: boolean): [number, string] {
  if (onRoad) return [standIn.road, "engine at 1700 rpm"];
  return run?.condition === "parked-raised-idle"
    ? [standIn.raisedIdle, "engine at 1500 rpm"]
    : [standIn.idle, "engine at 750 rpm"];
}

function returnAir(
  view: TrialView,
  reading: ReadingInContext,
  onRoad: boolean,
  assumed: string[],
): ReturnAir {
  const T = known(view, reading, "return-air-temperature");
  const humidity = known(view, reading, "return-air-humidity");
  if (T) {
    return { kind: "measured", T: T.value, ...(humidity && { humidity: humidity.value }) };
  }
  assumed.push("return air from a model of the cabin: reading it narrows this most");
  return {
    kind: "pull-down",
    share: onRoad ? standIn.roadPullDown : standIn.parkedPullDown,
  };
}
