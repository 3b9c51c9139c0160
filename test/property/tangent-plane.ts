import { mixtureR, type Mixture, type MixState } from "../../src/fluids/index.ts";
import { createPhaseWork } from "../../src/fluids/mixture/mixture-work.ts";
import { densityRoot } from "../../src/fluids/mixture/phase-density.ts";
import { evaluatePhase, placePhase } from "../../src/fluids/mixture/phase-kernel.ts";

/**
 * Lowest distance of any liquid or vapour of a binary blend below the tangent plane of a state, by
 * brute force over compositions; over RT. A stable state has none below 0 but for rounding.
 */
export function lowestTangentDistance(mix: Mixture, state: MixState, points = 600): number {
  const [phase] = state.phases;
  if (!phase || mix.n !== 2) throw new RangeError("a state of a binary blend is accepted");
  const level = phase.x.map((x, i) => Math.log(x) + (phase.lnPhi[i] ?? 0));
  const work = createPhaseWork(mix);
  let lowest = Infinity;
  for (let k = 0; k < points; k++) {
    // Even steps in ln(x/(1 − x)): as dense towards both pure fluids, where traces live.
    const first = 1 / (1 + Math.exp(-18 + (36 * (k + 0.5)) / points));
    for (const side of ["liquid", "vapour"] as const) {
      placePhase(mix, work, state.T, [first, 1 - first]);
      const delta = densityRoot(mix, work, state.p, side);
      if (delta === 0) continue;
      evaluatePhase(mix, work, delta / work.vr.value);
      const lnZ = Math.log(state.p / (work.rho * mixtureR * state.T));
      let distance = 0;
      for (const [i, share] of [first, 1 - first].entries()) {
        distance += share * (Math.log(share) + (work.psi[i] ?? 0) - lnZ - (level[i] ?? 0));
      }
      lowest = Math.min(lowest, distance);
    }
  }
  return lowest;
}
