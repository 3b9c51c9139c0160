import { blendInfo, isFluidId } from "../../fluids/index.ts";
import { pureComposition, saturationOf } from "../../vehicle/index.ts";
import type { ReadingForm, ReadingQuantity, Stage } from "../events.ts";
import { conditionsOf, type KnownConditions } from "../expectation/conditions.ts";
import { modelOf } from "../expectation/vehicle-model.ts";
import { vehicleAccount } from "../ledger/view.ts";
import { companion } from "../verdict/context.ts";
import type { ReadingInContext } from "../verdict/view.ts";
import type { RunView, TrialView } from "../view.ts";
import { conditionsInput } from "./conditions-input.ts";

/** A value of the log as `diagnose` takes it, SI. */
interface Taken {
  readonly value: number;
  readonly u?: number;
}
type Readings = Readonly<Record<string, Taken>>;

/** What the runs of a stage ask of the calculation `diagnose` together, or why they ask nothing. */
export type FaultQuestion =
  | {
      readonly kind: "asked";
      readonly stage: Stage;
      readonly runs: readonly RunView[];
      /** Input of the calculation `diagnose`: SI numbers. */
      readonly input: Readonly<Record<string, unknown>>;
      /** What nobody read and had to be assumed, in words, and in which of the runs. */
      readonly assumed: readonly { readonly text: string; readonly runs: readonly number[] }[];
      /** Names of the runs that served as a baseline of the sound vehicle. */
      readonly baseline: readonly string[];
      /** Runs of the stage that are not among them, with the reason. */
      readonly left: readonly LeftRun[];
    }
  | { readonly kind: "none"; readonly stage: Stage; readonly why: string };

/** Fewer readings decide nothing. */
const fewest = 2;
/** Runs that are judged together: more take time on a phone, and a repeat tells little that is new. */
const most = 4;
/** The calculation takes six of them. */
const mostBaseline = 6;

/**
 * The question of a stage: all its runs on the label refrigerant with the charge that is inside now, together. In
 * Restore the runs of Prove are the baseline: the vehicle was found healthy then.
 *
 * @returns undefined when there is no such run.
 */
export function faultQuestion(
  view: TrialView,
  stage: "prove" | "restore",
): FaultQuestion | undefined {
  const runs = view.runs.filter((run) => run.stage === stage && onLabel(view, run));
  const last = runs.at(-1);
  if (!last) return undefined;
  const none = (why: string): FaultQuestion => ({ kind: "none", stage, why });
  const { vehicle } = view;
  if (!vehicle) return none("Describe the vehicle first.");
  const system = systemInput(vehicle);
  if (typeof system === "string") return none(system);
  const { usable, left } = usableRuns(view, runs);
  if (usable.reduce((sum, { count }) => sum + count, 0) < fewest) {
    const why = left.find(({ name }) => name === last.name)?.why ?? "it is the only reading";
    return none(
      `Read at least two of low side, high side and vent temperature. Not used: ${last.name}, because ${why}.`,
    );
  }
  const before = stage === "restore" ? view.runs.filter((run) => run.stage === "prove") : [];
  const baseline = usableIn(
    view,
    before.filter((run) => onLabel(view, run)),
  )
    .filter(({ count }) => count >= fewest)
    .slice(-mostBaseline);
  return {
    kind: "asked",
    stage,
    runs: usable.map(({ run }) => run),
    input: {
      ...system,
      barometer: view.atmosphere.value,
      runs: usable.map(({ input }) => input),
      ...(baseline.length > 0 && { baseline: baseline.map(({ input }) => input) }),
    },
    assumed: assumedIn(usable),
    baseline: baseline.map(({ run }) => run.name),
    left,
  };
}

/** The vehicle with what should be inside, or what is missing. */
function systemInput(vehicle: NonNullable<TrialView["vehicle"]>) {
  const model = modelOf(vehicle);
  if (model.kind === "none") return model.why;
  const substance = substanceInput(vehicle.labelRefrigerant);
  if (!substance) return "No properties are at hand for the label refrigerant.";
  return {
    vehicle: {
      ...(vehicle.model?.refined ?? {}),
      preset: model.vehicle.preset,
      labelCharge: vehicle.labelCharge,
    },
    ...substance,
    charge: vehicle.labelCharge,
  };
}

/** Whether a run was on the label refrigerant. */
export const onLabel = ({ vehicle }: TrialView, { charged }: RunView): boolean =>
  charged.kind === "fluid" && charged.fluid === vehicle?.labelRefrigerant;

interface UsableRun {
  readonly run: RunView;
  readonly input: Readonly<Record<string, unknown>>;
  readonly assumed: readonly string[];
  readonly count: number;
}
interface LeftRun {
  readonly name: string;
  readonly why: string;
}

/** The runs that tell of the vehicle as it is now: those of the last round and the last charge, one of a kind first. */
function usableRuns(
  view: TrialView,
  runs: readonly RunView[],
): { readonly usable: readonly UsableRun[]; readonly left: readonly LeftRun[] } {
  const left: LeftRun[] = [];
  const all = runs.filter((run) => {
    const why = objection(view, run, runs.at(-1));
    if (why !== undefined) left.push({ name: run.name, why });
    return why === undefined;
  });
  const kinds = new Map(all.map((run) => [run.condition, run]));
  const repeats = all.filter((run) => kinds.get(run.condition) !== run).reverse();
  const kept = new Set([...kinds.values(), ...repeats].slice(0, most));
  for (const { name } of all.filter((run) => !kept.has(run))) {
    left.push({ name, why: "later runs repeat it" });
  }
  return {
    usable: usableIn(
      view,
      all.filter((run) => kept.has(run)),
    ),
    left,
  };
}

/** A share of the label charge: less is what hoses take. */
const noticeable = 0.05;

function objection(view: TrialView, run: RunView, last: RunView | undefined): string | undefined {
  if (run.round !== last?.round) return "it is of an earlier round";
  const least = noticeable * (view.vehicle?.labelCharge ?? 0);
  const changed = view.ledger.postings.some(
    ({ from, to, mass, when }) =>
      (from === vehicleAccount || to === vehicleAccount) &&
      Math.abs(mass.value) > least &&
      Date.parse(when) > Date.parse(run.when) &&
      Date.parse(when) <= Date.parse(last?.when ?? run.when),
  );
  if (changed) return "the charge was changed after it";
  if (Object.keys(readingsOf(view, run)).length === 0) {
    return "it has no reading that tells of the system";
  }
  return conditionsIn(view, run) ? undefined : "its outside temperature was not entered";
}

/** Runs as the calculation takes them; a pressure at rest goes with the first of the runs that it is nearest to. */
function usableIn(view: TrialView, runs: readonly RunView[]): readonly UsableRun[] {
  const rests = new Set<string>();
  return runs.flatMap((run) => {
    const [known, running] = [conditionsIn(view, run), readingsOf(view, run)];
    if (!known || Object.keys(running).length === 0) return [];
    const readings = { ...running, ...atRest(view, run, rests) };
    const count = Object.keys(readings).filter((name) => name !== "metal").length;
    const input = {
      name: run.name.slice(0, longestName),
      ...conditionsInput(known.conditions),
      readings,
    };
    return [{ run, input, assumed: known.assumed, count }];
  });
}

/** Of a run, as the calculation takes it. */
const longestName = 80;

/** What was assumed, once, with the places of its runs. */
function assumedIn(runs: readonly UsableRun[]) {
  const texts = [...new Set(runs.flatMap(({ assumed }) => assumed))];
  return texts.map((text) => ({
    text,
    runs: runs.flatMap(({ assumed }, k) => (assumed.includes(text) ? [k] : [])),
  }));
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
  return readings;
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
function atRest(view: TrialView, run: RunView, rests: Set<string>): Readings {
  const about = inRun(run);
  const pressure = companion(view, about, "static-high") ?? companion(view, about, "static-low");
  const metal = companion(view, about, "metal-temperature");
  if (!pressure || !metal || rests.has(pressure.id)) return {};
  rests.add(pressure.id);
  const taken = ({ value, u }: { value: number; u?: number }): Taken => ({
    value,
    ...(u !== undefined && { u }),
  });
  return { static: taken(pressure), metal: taken(metal) };
}
