import { mixtureR, type Mixture } from "./mixture.ts";
import type { MixtureWork, PhaseWork } from "./mixture-work.ts";
import { densityError } from "./phase-density.ts";

/** A molar property of both phases together that a split is to have, and its row in the matrix. */
export interface BulkTarget {
  readonly quantity: "h" | "s" | "v";
  readonly value: number;
  readonly row: number;
}

/**
 * Fills the row of a molar bulk property m = (1 − β)·m_L + β·m_V in Newton's matrix of a split.
 *
 * Unknowns are ln K_i, β, ln T, ln p; the property is reduced to order 1.
 */
export function fillBulk(
  mix: Mixture,
  z: ArrayLike<number>,
  target: BulkTarget,
  work: MixtureWork,
): void {
  const { beta, liquid, vapour, right } = work;
  const found =
    (1 - beta) * addPhase(mix, z, target, work, liquid) +
    beta * addPhase(mix, z, target, work, vapour);
  right[target.row] = (target.value - found) / scaleOf(target, work);
}

function scaleOf({ quantity, value }: BulkTarget, { T }: MixtureWork): number {
  if (quantity === "h") return mixtureR * T;
  return quantity === "s" ? mixtureR : value;
}

/** Adds one phase's part of the row; returns its property at the pressure wanted, to first order. */
function addPhase(
  { n }: Mixture,
  z: ArrayLike<number>,
  target: BulkTarget,
  work: MixtureWork,
  phase: PhaseWork,
): number {
  const { matrix, lnK, beta, p, T } = work;
  const { D, Pi, hBar, sBar, slopeT } = phase;
  const { quantity } = target;
  const start = target.row * (n + 3);
  const scale = scaleOf(target, work);
  const inVapour = phase === work.vapour;
  const share = inVapour ? beta : 1 - beta;
  const v = 1 / phase.rho;
  const error = densityError(phase, p);
  // ∂ln ρ/∂ln T at constant p.
  const expansion = -slopeT / D;
  const RT = mixtureR * T;
  const byH = quantity === "h";
  const byS = quantity === "s";
  const bulk = byH
    ? phase.h + RT * (D - slopeT) * error
    : byS
      ? phase.s - mixtureR * slopeT * error
      : v * (1 - error);
  const byT = byH ? phase.cp * T : byS ? phase.cp : -v * expansion;
  const byP = byH
    ? v * (1 + expansion) * p
    : byS
      ? (v * expansion * p) / T
      : (-v * v * p) / (RT * D);
  matrix[start + n + 1] += (share * byT) / scale;
  matrix[start + n + 2] += (share * byP) / scale;
  matrix[start + n] += (inVapour ? bulk : -bulk) / scale;
  for (let j = 0; j < n; j++) {
    const K = Math.exp(lnK[j]);
    const d = 1 - beta + beta * K;
    const common = (z[j] * K) / (d * d);
    const slope = (z[j] * (K - 1)) / (d * d);
    const partial = byH ? hBar[j] : byS ? sBar[j] : (v * Pi[j]) / D;
    const excess = (share * (partial - bulk)) / scale;
    matrix[start + j] += excess * (inVapour ? (1 - beta) * common : -beta * common);
    matrix[start + n] -= excess * (inVapour ? slope * K : slope);
  }
  return bulk;
}
