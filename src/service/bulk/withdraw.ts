import { fluidInfo } from "../../fluids/index.ts";
import { findRoot } from "../../numerics/index.ts";
import type { Part } from "../substances/composition.ts";
import { type Bulk, bulkAtTRho, type BulkPhase } from "./bulk.ts";
import type { BulkFailure } from "./bulk-failure.ts";
import { massOf, materialOf } from "./material.ts";

/** A closed vessel that is emptied through one valve, kept at its temperature. */
export interface Withdrawal {
  /** Mole fractions at the beginning. */
  readonly moles: readonly Part[];
  /** K, m3, kg. */
  readonly T: number;
  readonly volume: number;
  readonly mass: number;
  /** Vapour leaves at the top, liquid at the bottom; the only phase leaves at either. */
  readonly from: "top" | "bottom";
  /** Fraction of the mass to take out, 0 to 1. */
  readonly until: number;
  /** How many points the series has after the first. */
  readonly steps: number;
}

/** The vessel after some mass has been taken out. Pa, kg; compositions by mass. */
export interface WithdrawalPoint {
  readonly withdrawn: number;
  readonly left: number;
  readonly p: number;
  readonly liquidFraction: number;
  readonly liquidVolumeFraction: number;
  /** The phase that leaves now, and what is in it. */
  readonly drawn: BulkPhase["kind"];
  readonly leaving: readonly Part[];
  /** What is in the vessel. */
  readonly remaining: readonly Part[];
  /** All that has come out, mixed; `undefined` at the beginning. */
  readonly collected: readonly Part[] | undefined;
}

export interface WithdrawalSeries {
  readonly points: readonly WithdrawalPoint[];
  /** Why the series ends early. */
  readonly failure: BulkFailure | undefined;
}

/** Small steps between two points of the series. */
const SUBSTEPS = 4;

/** Amounts of substance, mol, in the order of the parts. */
type Amounts = readonly number[];

interface Contents {
  readonly bulk: Bulk;
  readonly drawn: BulkPhase;
}

/**
 * Empties a vessel at constant temperature and records it.
 *
 * Each component follows dn_i = −r_i n_i dξ with r_i = y_i/n_i, y the fractions of the phase that leaves. Over a small
 * step r is taken from its middle, so amounts fall exponentially and never below zero; the length of the step follows
 * from the mass that it takes out. What has come out is what is missing, so mass is conserved by each component.
 *
 * @throws RangeError for fractions that make no whole or numbers that are not finite: the caller's bug.
 *
 * Limits: phases in equilibrium, so slow; the vessel keeps its temperature, so slower still.
 * Source: Rayleigh, Phil. Mag. 4 (1902) 521, differential distillation
 * Checked: withdraw.test.ts
 */
export function withdraw(withdrawal: Withdrawal): WithdrawalSeries {
  const { moles, mass, until, steps } = withdrawal;
  const M = moles.map(({ fluid }) => fluidInfo(fluid).M);
  const massOfAmounts = (n: Amounts): number =>
    n.reduce((sum, each, i) => sum + each * (M[i] ?? 0), 0);
  const whole = mass / massOfAmounts(moles.map(({ fraction }) => fraction));
  const start = moles.map(({ fraction }) => fraction * whole);
  const points: WithdrawalPoint[] = [];
  let n: Amounts = start;
  for (let step = 0; step <= steps; step++) {
    const contents = contentsOf(withdrawal, n);
    if ("reason" in contents) return { points, failure: contents };
    points.push(pointOf(withdrawal, contents, { start, n, left: massOfAmounts(n) }));
    if (step === steps) break;
    for (let part = 1; part <= SUBSTEPS; part++) {
      const target = mass * (1 - (until * (step + part / SUBSTEPS)) / steps);
      const next = take(withdrawal, n, M, target);
      if ("reason" in next) return { points, failure: next };
      n = next;
    }
  }
  return { points, failure: undefined };
}

const fractionsOf = (moles: readonly Part[], n: Amounts): readonly Part[] => {
  const total = n.reduce((sum, each) => sum + each, 0);
  return moles.map(({ fluid }, i) => ({ fluid, fraction: (n[i] ?? 0) / total }));
};

/** What is in the vessel with these amounts, and the phase at the valve. */
function contentsOf({ moles, T, volume, from }: Withdrawal, n: Amounts): Contents | BulkFailure {
  const material = materialOf(fractionsOf(moles, n));
  const total = n.reduce((sum, each) => sum + each, 0);
  const bulk = bulkAtTRho(material, T, (total * material.M) / volume);
  if (bulk.kind === "failed") return bulk;
  const drawn = from === "bottom" ? bulk.phases[0] : bulk.phases.at(-1);
  if (!drawn) throw new RangeError("a bulk has a phase");
  return { bulk, drawn };
}

/** The amounts that are left at a target mass, kg: one small step. */
function take(
  withdrawal: Withdrawal,
  n: Amounts,
  M: readonly number[],
  target: number,
): Amounts | BulkFailure {
  const here = contentsOf(withdrawal, n);
  if ("reason" in here) return here;
  const current = n.reduce((sum, each, i) => sum + each * (M[i] ?? 0), 0);
  const middle = decayed(n, ratesOf(here.drawn, n), M, (current + target) / 2);
  const there = contentsOf(withdrawal, middle);
  if ("reason" in there) return there;
  return decayed(n, ratesOf(there.drawn, middle), M, target);
}

/** r_i = y_i/n_i, 1/mol. */
const ratesOf = ({ moles }: BulkPhase, n: Amounts): readonly number[] =>
  n.map((each, i) => (each > 0 ? (moles[i]?.fraction ?? 0) / each : 0));

/** n_i exp(−r_i ξ) with the ξ that leaves a target mass. */
function decayed(
  n: Amounts,
  rates: readonly number[],
  M: readonly number[],
  target: number,
): Amounts {
  const after = (xi: number) => n.map((each, i) => each * Math.exp(-(rates[i] ?? 0) * xi));
  const excess = (xi: number): number =>
    after(xi).reduce((sum, each, i) => sum + each * (M[i] ?? 0), -target);
  let far = n.reduce((sum, each) => sum + each, 0);
  while (excess(far) > 0) far *= 2;
  const root = findRoot(excess, 0, far);
  return after(root.kind === "root" ? root.x : root.at);
}

function pointOf(
  { moles, mass }: Withdrawal,
  { bulk, drawn }: Contents,
  { start, n, left }: { readonly start: Amounts; readonly n: Amounts; readonly left: number },
): WithdrawalPoint {
  const liquid = bulk.phases.find(({ kind }) => kind === "liquid");
  const out = start.map((each, i) => each - (n[i] ?? 0));
  const any = out.some((each) => each > 0);
  return {
    withdrawn: Math.max(0, mass - left),
    left,
    p: bulk.p,
    liquidFraction: liquid?.share ?? 0,
    liquidVolumeFraction: liquid?.volumeShare ?? 0,
    drawn: drawn.kind,
    leaving: drawn.mass,
    remaining: massOf(fractionsOf(moles, n)),
    collected: any ? massOf(fractionsOf(moles, out)) : undefined,
  };
}
