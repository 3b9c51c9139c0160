import { logNormal, logNormalVector, normalCdf } from "../../inference/index.ts";
import { identifierLog, reportedShares, yesProbability } from "./detect.ts";
import type {
  BoilingEvidence,
  Evidence,
  FillEvidence,
  LabelEvidence,
  LiquidDensityEvidence,
  PressureEvidence,
  RunningEvidence,
} from "./evidence.ts";
import type { Matter, VesselFill } from "./matter.ts";

/** Part of the variance of a gauge's or thermometer's error that all its readings share (common practice, no source). */
export const SHARED = 0.8;
/** How full fillers fill: share of liquid by volume at about 20 °C, standard deviation (common practice, no source). */
export const FILLED = { mean: 0.76, sd: 0.08 } as const;

interface PressureRow {
  readonly T: number;
  readonly uT: number;
  readonly p: number;
  readonly u: number;
  readonly gauge: string;
  readonly thermometer: string;
  readonly fill: VesselFill;
}

/** Likelihood of some evidence, and how well the best point fits. */
export interface Score {
  /** ln of the likelihood at the point where the matter stands; −∞ where impossible. */
  logLikelihood(matter: Matter): number;
  /** Sum of squares of the standardised residuals of the last call, over {@link Score.measured} figures. */
  misfit: number;
  readonly measured: number;
  /** There is nothing that a content could be measured by. */
  readonly silent: boolean;
}

const fillOf = (
  evidence: readonly Evidence[],
  vessel: "can" | "vehicle",
): FillEvidence | undefined =>
  evidence.find((each): each is FillEvidence => each.kind === "fill" && each.vessel === vessel);

function rowsOf(evidence: readonly Evidence[]): PressureRow[] {
  return evidence.flatMap((each, i): PressureRow[] => {
    if (each.kind === "pressure") return [pressureRow(each, i, fillOf(evidence, each.vessel))];
    return each.kind === "boiling" ? [boilingRow(each, i)] : [];
  });
}

function pressureRow(
  each: PressureEvidence,
  i: number,
  fill: FillEvidence | undefined,
): PressureRow {
  const { T, uT, p, u, vessel, gauge = `gauge ${i}`, thermometer = `thermometer ${i}` } = each;
  const density = fill && fill.mass / fill.volume;
  return {
    T,
    uT,
    p,
    u,
    gauge,
    thermometer,
    fill: { vessel, ...(density !== undefined && { density }) },
  };
}

/** A boiling point is a pressure that is known, at a temperature that is not quite. */
const boilingRow = ({ T, uT, p, u, thermometer }: BoilingEvidence, i: number): PressureRow => ({
  T,
  uT,
  p,
  u,
  gauge: `barometer ${i}`,
  thermometer: thermometer ?? `thermometer ${i}`,
  fill: { vessel: "can", open: true },
});

/** Weighed by itself. Pressures are weighed together, runs afterwards, and a label moves the prior. */
type Plain = Exclude<
  Evidence,
  PressureEvidence | BoilingEvidence | RunningEvidence | LabelEvidence
>;
const isPlain = (each: Evidence): each is Plain =>
  !["pressure", "boiling", "running", "label"].includes(each.kind);

/** ln-likelihood of evidence that is no pressure. */
function plainLog(each: Plain) {
  switch (each.kind) {
    case "fill":
      return (matter: Matter, note: (z: number) => void) => filledLog(each, matter, note);
    case "liquid-density":
      return (matter: Matter, note: (z: number) => void) => densityLog(each, matter, note);
    case "identifier": {
      const reported = reportedShares(each);
      return (matter: Matter) => identifierLog(matter.masses(), reported, each.u);
    }
    case "detector":
      return (matter: Matter) => {
        const yes = yesProbability(matter.masses(), each);
        return Math.log(each.responded ? yes : 1 - yes);
      };
  }
}

function densityLog(
  { rho, u, T }: LiquidDensityEvidence,
  matter: Matter,
  note: (z: number) => void,
): number {
  const expected = matter.liquidDensity(T);
  if (expected === undefined) return -Infinity;
  const sd = Math.hypot(u, LIQUID_TABLE_U * expected);
  note((rho - expected) / sd);
  return logNormal(rho, expected, sd);
}

/** Relative, of liquid densities from the fitted tables: see surface.test.ts. */
const LIQUID_TABLE_U = 0.01;
const ROOM_T = 293.15;

/** Mass and volume: never more liquid than the vessel holds, and near the usual filling if it is as it was filled. */
function filledLog(
  { vessel, mass, uMass, volume, uVolume, full }: FillEvidence,
  matter: Matter,
  note: (z: number) => void,
): number {
  const rho = mass / volume;
  const u = Math.hypot(uMass / mass, uVolume / volume);
  if (matter.family.kind === "gas")
    return full ? logNormal(Math.log(rho), Math.log(60), 1) - Math.log(rho) : 0;
  matter.pressure(ROOM_T, { vessel, density: rho });
  const { liquidShare } = matter.state;
  const sd = Math.hypot(full ? FILLED.sd : 0.01, u * liquidShare);
  if (!full) return Math.log(Math.max(1e-12, normalCdf((1 - liquidShare) / sd)));
  const off = (liquidShare - FILLED.mean) / sd;
  note(off);
  // Density of the filling, per unit of measured density.
  return logNormal(liquidShare, FILLED.mean, sd) + Math.log(Math.max(liquidShare, 1e-3) / rho);
}

/**
 * Likelihood of some evidence. Labels and runs do not count here: a label moves the prior, a run the posterior.
 *
 * @param evidence Of one can or one filling of a vehicle.
 */
export function scoreOf(evidence: readonly Evidence[]): Score {
  const rows = rowsOf(evidence);
  const plain = evidence.filter(isPlain).map(plainLog);
  const n = rows.length;
  const covariance = new Float64Array(n * n);
  const residual = new Float64Array(n);
  const expected = new Float64Array(n);
  const slopes = new WeakMap<Matter, Float64Array>();
  const measured =
    n +
    evidence.filter((each) => each.kind === "liquid-density" || (each.kind === "fill" && each.full))
      .length;
  const score: Score = {
    logLikelihood,
    misfit: 0,
    measured,
    silent: n === 0 && plain.length === 0,
  };
  function logLikelihood(matter: Matter): number {
    score.misfit = 0;
    let log = 0;
    for (const each of plain) {
      log += each(matter, (z) => {
        score.misfit += z * z;
      });
      if (log === -Infinity) return log;
    }
    return n === 0 ? log : log + pressuresLog(matter);
  }
  function pressuresLog(matter: Matter): number {
    for (const [i, { T, fill }] of rows.entries()) {
      const p = matter.pressure(T, fill);
      if (p === undefined || !Number.isFinite(p)) return -Infinity;
      expected[i] = p;
    }
    const slope = slopesOf(matter);
    for (const [i, a] of rows.entries()) {
      residual[i] = a.p - (expected[i] ?? 0);
      for (let j = 0; j <= i; j++) {
        const b = rows[j];
        if (b) covariance[i * n + j] = sharedVariance(a, b, [i, j], slope, matter);
      }
    }
    const log = logNormalVector(n, covariance, residual);
    for (let i = 0; i < n; i++) score.misfit += (residual[i] ?? 0) ** 2;
    return log;
  }
  function sharedVariance(
    a: PressureRow,
    b: PressureRow,
    [i, j]: readonly [number, number],
    slope: Float64Array,
    matter: Matter,
  ): number {
    const [pa, pb] = [expected[i] ?? 0, expected[j] ?? 0];
    const same = i === j;
    const gauge = a.gauge === b.gauge ? (same ? 1 : SHARED) * a.u * b.u : 0;
    const heat = (slope[i] ?? 0) * pa * a.uT * (slope[j] ?? 0) * pb * b.uT;
    const thermometer = a.thermometer === b.thermometer ? (same ? 1 : SHARED) * heat : 0;
    const model = matter.modelU ** 2 * pa * pb;
    return gauge + thermometer + model + (same ? (matter.scatterU * pa) ** 2 : 0);
  }
  /** Relative rise of pressure with temperature, 1/K: one for all compositions of the matter. */
  function slopesOf(matter: Matter): Float64Array {
    const known = slopes.get(matter);
    if (known) return known;
    const found = Float64Array.from(rows, ({ T, fill }, i) => {
      const warmer = matter.pressure(T + 1, fill) ?? expected[i] ?? 0;
      return Math.min(0.2, Math.max(0, warmer / (expected[i] ?? 1) - 1));
    });
    slopes.set(matter, found);
    return found;
  }
  return score;
}
