import { type Gaussian } from "../../inference/index.ts";
import { createRunWork, type Saturation, saturationOf } from "../../vehicle/index.ts";
import { knowledgeOf, systemIn } from "./baseline.ts";
import { type Evidence, evidenceOf } from "./evidence.ts";
import { onlySign, signsNeeded } from "./fault-facts.ts";
import { branchesOf, type FaultName, faultNames, type Kind } from "./hypotheses.ts";
import { type BranchMoments, branchMoments, centresOf, momentsAt, type System } from "./moments.ts";
import { nextReadings, type NextReading } from "./next.ts";
import { type Knowledge, priorKnowledge } from "./nuisances.ts";
import {
  expectedReadings,
  type Posterior,
  type SeverityRange,
  severityRange,
  substitutesIn,
} from "./posterior.ts";
import type { Label } from "./predict.ts";
import { type FaultQuantity, outer, quantityAt, type ReadRun } from "./quantities.ts";
import { refined } from "./refine.ts";
import { independentSigns, type Sign, signsOf } from "./signs.ts";
import { verdictOf, type Verdict } from "./verdict.ts";

/** A vehicle that was read while it ran, in one run or in several. */
export interface DiagnosisRequest {
  /** The sound vehicle, with what should be inside. */
  readonly healthy: Kind;
  /** The same vehicle with the same fault, if there is one, in every run. At least one. */
  readonly runs: readonly ReadRun[];
  /** Runs of this vehicle when it was known to be sound: they narrow what sound vehicles may differ by. */
  readonly baseline?: readonly ReadRun[];
}

/** One fault, or none, with what speaks for it. */
export interface FaultView {
  readonly name: FaultName;
  readonly probability: number;
  readonly severity?: SeverityRange;
  readonly signs: readonly Sign[];
  readonly independentSigns: number;
}

/** A reading beside what a sound vehicle would show. */
export interface ReadingView {
  readonly quantity: FaultQuantity;
  /** Place of its run among the runs. */
  readonly run: number;
  readonly value: number;
  readonly u: number;
  readonly healthy: { readonly mean: number; readonly sd: number };
}

export type DiagnosisNote =
  /** A control holds the low side in a sound vehicle: it tells little of charge, restriction or fluid. */
  | "low-side-held"
  /** A valve with a receiver keeps readings normal until most of the charge is gone. */
  | "valve-hides-charge"
  /** No fault of the list shows these readings. */
  | "nothing-fits"
  /** Fewer than two readings. */
  | "few-readings";

export interface Diagnosis extends Verdict {
  readonly kind: "diagnosis";
  /** By probability; `none` is a sound vehicle. */
  readonly faults: readonly FaultView[];
  readonly readings: readonly ReadingView[];
  readonly substitutes: ReturnType<typeof substitutesIn>;
  readonly next: readonly NextReading[];
  /** The two that `next` would tell apart. */
  readonly leading: readonly [FaultName, FaultName];
  readonly notes: readonly DiagnosisNote[];
}

/** Why there is none: a sound vehicle of this kind would not run here, or the fluid cannot be followed. */
export interface NoDiagnosis {
  readonly kind: "no-diagnosis";
  readonly reason: "sound-vehicle-does-not-run" | "no-properties";
}

/**
 * What is wrong with a vehicle, from readings of one run or of several together.
 *
 * Posterior over the faults of the vehicle model, each with a continuous severity; what differs between sound
 * vehicles is integrated out. Deterministic.
 *
 * Cost: docs/models/faults.md has the times; 0.5 s more the first time a refrigerant is asked for.
 */
export function diagnose(request: DiagnosisRequest): Diagnosis | NoDiagnosis {
  const label = saturationOf(request.healthy.fill.composition);
  if (label.kind !== "saturation") return { kind: "no-diagnosis", reason: "no-properties" };
  const model = modelOf(request, label);
  if (!model) return { kind: "no-diagnosis", reason: "sound-vehicle-does-not-run" };
  return diagnoseWith(model, request);
}

/** The same with everything at hand that does not depend on the readings' values. */
export function diagnoseWith(model: FaultModel, request: DiagnosisRequest): Diagnosis {
  return viewOf(judge(model, request), request);
}

/** What is judged, before anybody asks what to read next. */
export interface Judged extends Found, Verdict {
  /** By probability; `none` is a sound vehicle. */
  readonly faults: readonly FaultView[];
}

/** The readings against every hypothesis. */
export function judge(model: FaultModel, { runs }: DiagnosisRequest): Judged {
  const evidence = evidenceIn(model, runs);
  const found = { ...model, ...refined(model.branches, { ...model, evidence }), evidence };
  const faults = faultNames
    .map((name) => faultView(name, found))
    .sort((a, b) => b.probability - a.probability);
  return { ...found, ...verdictOf(faults, found.posterior.bestFit, evidence.y.length), faults };
}

/** The readings of the runs for which a model was made. */
export const evidenceIn = ({ systems }: FaultModel, runs: readonly ReadRun[]): Evidence =>
  evidenceOf(systems.map((system, k) => ({ system, readings: runs[k]?.readings ?? [] })));

/** Everything that does not depend on the readings' values. */
export interface FaultModel {
  readonly label: Label;
  readonly known: Knowledge;
  /** The sound vehicle in each run, as it is known. */
  readonly systems: readonly System[];
  readonly sound: Gaussian;
  readonly branches: readonly BranchMoments[];
}

/** What every fault would show in these runs; undefined when a sound vehicle would not run in one of them. */
export function modelOf(
  { healthy, runs, baseline = [] }: DiagnosisRequest,
  saturation: Saturation,
): FaultModel | undefined {
  const label: Label = { label: saturation, work: createRunWork() };
  // A baseline that carries the model to where it would not run says more of the baseline than of the vehicle.
  for (const known of [knowledgeOf(baseline, healthy, label), priorKnowledge(healthy)]) {
    const systems = runs.map((run) => systemIn(run, healthy, label, known));
    const sound = momentsAt(systems, known, undefined);
    if (!sound) continue;
    const branches = branchesOf(healthy).map((branch) =>
      branchMoments(branch, systems, known, sound),
    );
    return { label, known, systems, sound, branches };
  }
  return undefined;
}

interface Found extends FaultModel {
  readonly evidence: Evidence;
  readonly posterior: Posterior;
}

function viewOf(judged: Judged, request: DiagnosisRequest): Diagnosis {
  const { faults, named, suspected, fits, posterior, sound, evidence, branches } = judged;
  const leading = leadingTwo(faults);
  return {
    kind: "diagnosis",
    named,
    ...(suspected && { suspected }),
    fits,
    faults,
    readings: readingViews(sound, evidence),
    substitutes: substitutesIn(posterior, branches),
    next: hasAllItsSigns(faults) ? [] : nextReadings(judged, leading),
    leading,
    notes: notesOf(judged, request),
  };
}

/** Odds beyond this are believed of no model: what is missing then is a second sign, against a sound vehicle. */
const nearlySure = 0.9;

const lacksSign = ({ name, probability, independentSigns: signs }: FaultView): boolean =>
  name !== "none" && probability >= nearlySure && signs < signsNeeded;

function leadingTwo([first, second]: readonly FaultView[]): readonly [FaultName, FaultName] {
  if (!first || !second) throw new RangeError("there are fewer than two hypotheses");
  return [first.name, lacksSign(first) ? "none" : second.name];
}

/** A fault that moves one reading only has shown it: no reading of the list can be the second sign that it lacks. */
const hasAllItsSigns = ([first]: readonly FaultView[]): boolean =>
  first !== undefined &&
  lacksSign(first) &&
  first.independentSigns > 0 &&
  onlySign(first.name) !== undefined;

function faultView(name: FaultName, { posterior, sound, evidence }: Found): FaultView {
  const severity = severityRange(posterior, name);
  const signs = signsOf(name, posterior, sound, evidence);
  return {
    name,
    probability: posterior.probability[name],
    ...(severity && { severity }),
    signs,
    independentSigns: independentSigns(signs, sound, evidence),
  };
}

function readingViews(sound: Gaussian, evidence: Evidence): readonly ReadingView[] {
  const base = expectedReadings(sound, evidence);
  const n = base.mean.length;
  return evidence.picks.map((pick, i) => {
    const { quantity, run } = quantityAt(pick);
    const u = evidence.u[i] ?? 0;
    // The whisker of the reading carries the instrument; the band of the vehicle does not.
    const variance = (base.covariance[i * n + i] ?? 0) - (evidence.noise[i * n + i] ?? 0);
    const sd = Math.sqrt(Math.max(0, variance));
    const mean = outer(quantity, base.mean[i] ?? 0);
    const value = outer(quantity, evidence.y[i] ?? 0);
    const healthy = { mean, sd: quantity === "high" ? sd * mean : sd };
    return { quantity, run, value, u, healthy };
  });
}

function notesOf(
  { systems, fits, evidence }: Judged,
  { healthy }: DiagnosisRequest,
): readonly DiagnosisNote[] {
  const held = centresOf(systems)?.every((run) => run.held) ?? false;
  const said: readonly (readonly [boolean, DiagnosisNote])[] = [
    [held, "low-side-held"],
    [healthy.vehicle.expansion === "valve", "valve-hides-charge"],
    [!fits, "nothing-fits"],
    [evidence.y.length < 2, "few-readings"],
  ];
  return said.filter(([holds]) => holds).map(([, note]) => note);
}
