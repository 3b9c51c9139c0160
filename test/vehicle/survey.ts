import {
  createRunWork,
  propertyPack,
  pureComposition,
  type Running,
  runVehicle,
  type VehicleCase,
} from "../../src/vehicle/index.ts";
import { type RandomCase, seededCases } from "./random-cases.ts";

/** What a survey of random cases found. */
export interface Survey {
  readonly counts: Readonly<Record<string, number>>;
  readonly unresolved: number;
  /** Cases whose answer is broken: not finite, or against a conservation law. */
  readonly broken: readonly string[];
  /** Worst relative imbalance. */
  readonly worst: { readonly energy: number; readonly charge: number };
  /** Milliseconds: cold solves that ran, warm solves half a kelvin away, all. */
  readonly cold: readonly number[];
  readonly warm: readonly number[];
  readonly all: readonly number[];
}

export const requestOf = (each: RandomCase): VehicleCase => ({
  vehicle: each.vehicle,
  conditions: each.conditions,
  faults: each.faults,
  fill: { composition: each.composition, charge: each.charge, air: each.air },
});

const warmer = (request: VehicleCase): VehicleCase => ({
  ...request,
  conditions: { ...request.conditions, ambient: request.conditions.ambient + 0.5 },
});

/** Solves random cases and checks each answer. */
export function survey(seed: number, count: number): Survey {
  const cases = seededCases(seed, count);
  propertyPack(pureComposition("R134a"));
  const work = createRunWork();
  const counts: Record<string, number> = {};
  const broken: string[] = [];
  const [cold, warm, all]: [number[], number[], number[]] = [[], [], []];
  let [energy, charge, unresolved] = [0, 0, 0];
  for (const [k, each] of cases.entries()) {
    const request = requestOf(each);
    const before = performance.now();
    const run = runVehicle(request, work);
    const took = performance.now() - before;
    all.push(took);
    const name = run.kind === "running" ? `running ${run.regime}` : `${run.kind} ${run.reason}`;
    counts[name] = (counts[name] ?? 0) + 1;
    if (run.kind === "unresolved") unresolved++;
    if (run.kind !== "running") continue;
    cold.push(took);
    const off = imbalance(run, request);
    energy = Math.max(energy, off.energy);
    charge = Math.max(charge, off.charge);
    if (!isFinite(run)) broken.push(`case ${k}: not finite`);
    if (!(off.energy <= 1e-6)) broken.push(`case ${k}: energy ${off.energy}`);
    if (!(off.charge <= 1e-6)) broken.push(`case ${k}: charge ${off.charge}`);
    if (run.cop > off.carnot) broken.push(`case ${k}: COP ${run.cop} above Carnot's ${off.carnot}`);
    const start = performance.now();
    const near = runVehicle(warmer(request), work, run.start);
    if (near.kind === "running") warm.push(performance.now() - start);
  }
  return { counts, unresolved, broken, worst: { energy, charge }, cold, warm, all };
}

function isFinite(value: unknown): boolean {
  if (typeof value === "number") return Number.isFinite(value);
  if (typeof value !== "object" || value === null) return true;
  return Object.values(value).every(isFinite);
}

const pointOf = (run: Running, at: string) => {
  const point = run.cycle.find((each) => each.at === at);
  if (!point) throw new Error(`no point ${at}`);
  return point;
};

/** Relative imbalances of energy around the refrigerant and of the charge; Carnot's COP of the cycle. */
export function imbalance(run: Running, request: VehicleCase) {
  const rise = pointOf(run, "discharge").h - pointOf(run, "suction").h;
  const outlet = pointOf(run, "condenser-outlet").h;
  const rejected = pointOf(run, "discharge").h - outlet;
  const taken = pointOf(run, "evaporator-outlet").h - pointOf(run, "evaporator-inlet").h;
  const capacity = Math.abs(run.capacity / run.massFlow - taken) / rejected;
  const parts = Object.values<number>({ ...run.charge }).reduce((sum, part) => sum + part, 0);
  // No heat is taken in above the warmest of the evaporator, none given off below the condenser's outlet.
  const cold = Math.max(pointOf(run, "evaporator-inlet").T, pointOf(run, "evaporator-outlet").T);
  const warmest = pointOf(run, "condenser-outlet").T;
  return {
    energy: Math.max(Math.abs(rejected - rise - taken) / rejected, capacity),
    charge: Math.abs(parts / request.fill.charge - 1),
    carnot: warmest > cold ? cold / (warmest - cold) : Infinity,
  };
}

export const quantile = (values: readonly number[], share: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) * share)] ?? 0;
};
