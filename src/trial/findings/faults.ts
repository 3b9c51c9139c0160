import { blendInfo, isFluidId } from "../../fluids/index.ts";
import { pureComposition, saturationOf } from "../../vehicle/index.ts";
import type { ReadingForm, ReadingQuantity } from "../events.ts";
import { conditionsOf, type KnownConditions } from "../expectation/conditions.ts";
import { modelOf } from "../expectation/vehicle-model.ts";
import { companion } from "../verdict/context.ts";
import type { ReadingInContext } from "../verdict/view.ts";
import type { RunView, TrialView } from "../view.ts";

/** A value of the log as `diagnose` takes it, SI. */
interface Taken {
  readonly value: number;
  readonly u?: number;
}
type Readings = Readonly<Record<string, Taken>>;

/** What a run asks of the calculation `diagnose`, or why it asks nothing. */
export type FaultQuestion =
  | {
      readonly kind: "asked";
      readonly run: RunView;
      /** Input of the calculation `diagnose`: SI numbers. */
      readonly input: Readonly<Record<string, unknown>>;
      /** What nobody read and had to be assumed, in words. */
      readonly assumed: readonly string[];
      /** Names of the runs that served as a baseline of the sound vehicle. */
      readonly baseline: readonly string[];
    }
  | { readonly kind: "none"; readonly run: RunView; readonly why: string };

/** Fewer readings decide nothing. */
const fewest = 2;

/**
 * The questions of a stage: one for each of its runs on the label refrigerant, in the order of the log. In Restore
 * the runs of Prove are the baseline: the vehicle was found healthy then.
 */
export function faultQuestions(view: TrialView, stage: "prove" | "restore"): FaultQuestion[] {
  const runs = view.runs.filter((run) => run.stage === stage && onLabel(view, run));
  const before = stage === "restore" ? view.runs.filter((run) => run.stage === "prove") : [];
  const baseline = before.flatMap((run) => {
    const [known, readings] = [conditionsIn(view, run), readingsOf(view, run)];
    return known && onLabel(view, run) && Object.keys(readings).length >= fewest
      ? [{ name: run.name, input: { ...conditionsInput(known), readings } }]
      : [];
  });
  // The calculation takes six of them.
  return runs.map((run) => question(view, run, baseline.slice(-6)));
}

/** Whether a run was on the label refrigerant. */
export const onLabel = ({ vehicle }: TrialView, { charged }: RunView): boolean =>
  charged.kind === "fluid" && charged.fluid === vehicle?.labelRefrigerant;

function question(
  view: TrialView,
  run: RunView,
  baseline: readonly { readonly name: string; readonly input: object }[],
): FaultQuestion {
  const none = (why: string): FaultQuestion => ({ kind: "none", run, why });
  const { vehicle } = view;
  if (!vehicle) return none("Describe the vehicle first.");
  const model = modelOf(vehicle);
  if (model.kind === "none") return none(model.why);
  const substance = substanceInput(vehicle.labelRefrigerant);
  if (!substance) return none("No properties are at hand for the label refrigerant.");
  const known = conditionsIn(view, run);
  if (!known) return none("Enter the outside temperature of this run first.");
  const readings = readingsOf(view, run);
  if (Object.keys(readings).filter((name) => name !== "metal").length < fewest) {
    return none("Read at least two of low side, high side and vent temperature in this run.");
  }
  return {
    kind: "asked",
    run,
    input: {
      vehicle: {
        ...(vehicle.model?.refined ?? {}),
        preset: model.vehicle.preset,
        labelCharge: vehicle.labelCharge,
      },
      ...substance,
      charge: vehicle.labelCharge,
      barometer: view.atmosphere.value,
      ...conditionsInput(known),
      readings,
      ...(baseline.length > 0 && { baseline: baseline.map(({ input }) => input) }),
    },
    assumed: known.assumed,
    baseline: baseline.map(({ name }) => name),
  };
}

function substanceInput(text: string): { fluid: string } | { blend: string } | undefined {
  if (isFluidId(text)) return { fluid: text };
  const blend = blendInfo(text);
  return blend && { blend: blend.name };
}

/** A stand-in for the reading whose surroundings are asked for. */
const inRun = (run: RunView): ReadingInContext => ({
  quantity: "low-side",
  form: "steady",
  typed: { value: 0, unit: "Pa" },
  stage: run.stage,
  run: run.id,
  when: run.when,
});

export const conditionsIn = (view: TrialView, run: RunView): KnownConditions | undefined =>
  conditionsOf(view, inRun(run));

function conditionsInput({ conditions }: KnownConditions): Readonly<Record<string, unknown>> {
  const { ambient, humidity, speed, engineSpeed, blower, recirculation, returnAir } = conditions;
  return {
    ...{ ambient, humidity, speed, engineSpeed, blower, recirculation },
    ...(returnAir.kind === "measured"
      ? {
          returnAir: {
            T: returnAir.T,
            ...(returnAir.humidity !== undefined && { humidity: returnAir.humidity }),
          },
        }
      : { pulldown: returnAir.share }),
  };
}

const names: readonly (readonly [string, ReadingQuantity, readonly ReadingForm[]])[] = [
  ["low", "low-side", ["steady"]],
  // A gauge is read while the clutch is engaged: its highest reading.
  ["high", "high-side", ["steady", "highest"]],
  ["vent", "vent-temperature", ["steady"]],
  ["superheat", "superheat", ["steady"]],
  ["subcooling", "subcooling", ["steady"]],
  ["discharge", "discharge-temperature", ["steady"]],
  ["liquidLine", "liquid-line-temperature", ["steady"]],
  ["duty", "clutch-duty", ["steady"]],
];

/** What was read in a run and at rest beside it, by the names that `diagnose` has for it. */
export function readingsOf(view: TrialView, run: RunView): Readings {
  const value = (
    quantity: ReadingQuantity,
    ...forms: readonly ReadingForm[]
  ): Taken | undefined => {
    for (const form of forms) {
      const found = run.values.find((one) => one.quantity === quantity && one.form === form);
      // Without an instrument the scatter alone would claim too much: the calculation takes the usual one.
      if (found) {
        return { value: found.value, ...(found.uInstrument !== undefined && { u: found.u }) };
      }
    }
    return undefined;
  };
  const readings: Record<string, Taken> = {};
  for (const [name, quantity, forms] of names) {
    const found = value(quantity, ...forms);
    if (found) readings[name] = found;
  }
  const [lowest, highest] = [value("low-side", "lowest"), value("low-side", "highest")];
  if (!readings["low"] && lowest && highest) Object.assign(readings, { lowest, highest });
  const vent = meanVent(value("vent-temperature", "lowest"), value("vent-temperature", "highest"));
  if (!readings["vent"] && vent) readings["vent"] = vent;
  const suction = value("suction-line-temperature", "steady");
  const superheat = superheatOf(view, readings["low"], suction);
  if (!readings["superheat"] && superheat) readings["superheat"] = superheat;
  return { ...readings, ...atRest(view, run) };
}

/** Middle of a swing; how far the mean lies from it is not known. */
function meanVent(lowest: Taken | undefined, highest: Taken | undefined): Taken | undefined {
  if (!lowest || !highest) return undefined;
  const swing = highest.value - lowest.value;
  const own = Math.max(lowest.u ?? 0.45, highest.u ?? 0.45);
  return { value: (lowest.value + highest.value) / 2, u: Math.hypot(own, swing / 6) };
}

function superheatOf(
  { vehicle }: TrialView,
  low: Taken | undefined,
  suction: Taken | undefined,
): Taken | undefined {
  if (!vehicle || !low || !suction || !isFluidId(vehicle.labelRefrigerant)) return undefined;
  const label = saturationOf(pureComposition(vehicle.labelRefrigerant));
  return label.kind === "saturation" ? { value: suction.value - label.dewT(low.value) } : undefined;
}

/** The static pressure of the same stage, with the metal's temperature: both gauges show the same at rest. */
function atRest(view: TrialView, run: RunView): Readings {
  const about = inRun(run);
  const pressure = companion(view, about, "static-high") ?? companion(view, about, "static-low");
  const metal = companion(view, about, "metal-temperature");
  if (!pressure || !metal) return {};
  const taken = ({ value, u }: { value: number; u?: number }): Taken => ({
    value,
    ...(u !== undefined && { u }),
  });
  return { static: taken(pressure), metal: taken(metal) };
}
