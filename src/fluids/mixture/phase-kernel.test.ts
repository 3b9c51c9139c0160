// The kernel against central differences and identities; against the library's tables: mix-*.test.ts.
import { describe, expect, test } from "vitest";
import { mixture } from "./mixture.ts";
import { createPhaseWork, type PhaseWork } from "./mixture-work.ts";
import {
  evaluateFugacityDerivatives,
  evaluatePhase,
  evaluatePhaseInDelta,
  placePhase,
} from "./phase-kernel.ts";
import { A01 } from "../residual-kernel.ts";
import { densityRoot } from "./phase-density.ts";
import type { FluidId } from "../fluid-id.ts";

const cases: readonly (readonly [readonly FluidId[], readonly number[], number, number])[] = [
  [["R290", "R600a"], [0.3, 0.7], 300, 1.05e4],
  [["R290", "R600a"], [0.3, 0.7], 300, 100],
  [["R32", "R125", "R134a"], [0.2, 0.3, 0.5], 290, 1.4e4],
  [["R744", "R728", "R740", "R1234yf"], [0.2, 0.3, 0.1, 0.4], 320, 2000],
  [["R170", "R290", "R600a", "R600"], [0.1, 0.2, 0.3, 0.4], 310, 1.05e4],
];

function at(
  mix: ReturnType<typeof mixture>,
  T: number,
  V: number,
  n: readonly number[],
): PhaseWork {
  const phase = createPhaseWork(mix);
  placePhase(mix, phase, T, n);
  evaluatePhase(mix, phase, n.reduce((sum, each) => sum + each, 0) / V);
  evaluateFugacityDerivatives(mix, phase);
  return phase;
}

describe.each(cases)("%j at %j, %d K, %d mol/m3", (ids, x, T, rho) => {
  const mix = mixture(ids);
  const V = 1 / rho;
  const base = at(mix, T, V, x);
  const bumped = (j: number, by: number): number[] =>
    x.map((each, k) => (k === j ? each + by : each));

  test("psi is the derivative of n times the residual Helmholtz energy at constant T, V", () => {
    for (let j = 0; j < x.length; j++) {
      const h = 1e-5;
      const [up, down] = [at(mix, T, V, bumped(j, h)), at(mix, T, V, bumped(j, -h))];
      const slope = ((1 + h) * (up.A[0] ?? 0) - (1 - h) * (down.A[0] ?? 0)) / (2 * h);
      expect(base.psi[j]).toBeCloseTo(slope, 7);
    }
  });

  test("phi is symmetric, and sums to 0 over the composition", () => {
    const n = x.length;
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) {
        expect(base.phi[i * n + j]).toBeCloseTo(base.phi[j * n + i] ?? 0, 8);
        sum += (x[j] ?? 0) * (base.phi[i * n + j] ?? 0);
      }
      expect(sum).toBeCloseTo(0, 8);
    }
  });

  test("phi and fT are the derivatives of ln phi at constant pressure", () => {
    const R = 8.31446261815324;
    const p = base.Z * rho * R * T;
    const lnPhi = (temperature: number, amounts: readonly number[]): number[] => {
      const phase = createPhaseWork(mix);
      placePhase(mix, phase, temperature, amounts);
      // The root nearest to the state, stable or not, by plain Newton steps.
      let delta = rho * base.vr.value;
      for (let k = 0; k < 40; k++) {
        evaluatePhaseInDelta(mix, phase, delta);
        const [a1 = 0, a2 = 0] = [phase.A[A01], phase.A[2]];
        const target = (p * phase.vr.value) / (R * temperature);
        delta -= (delta * (1 + a1) - target) / (1 + 2 * a1 + a2);
      }
      evaluatePhase(mix, phase, delta / phase.vr.value);
      return Array.from(phase.psi, (psi) => psi - Math.log(p / (phase.rho * R * temperature)));
    };
    for (let j = 0; j < x.length; j++) {
      const h = 1e-5;
      const [up, down] = [lnPhi(T, bumped(j, h)), lnPhi(T, bumped(j, -h))];
      for (let i = 0; i < x.length; i++) {
        const slope = ((up[i] ?? 0) - (down[i] ?? 0)) / (2 * h);
        const found = base.phi[i * x.length + j] ?? 0;
        expect(Math.abs(slope - found)).toBeLessThan(1e-6 * (1 + Math.abs(found)));
      }
    }
    const h = 1e-4;
    const [up, down] = [lnPhi(T * (1 + h), x), lnPhi(T * (1 - h), x)];
    for (let i = 0; i < x.length; i++) {
      const slope = ((up[i] ?? 0) - (down[i] ?? 0)) / (2 * h);
      const found = base.fT[i] ?? 0;
      expect(Math.abs(slope - found)).toBeLessThan(1e-5 * (1 + Math.abs(found)));
    }
  });

  test("the density root meets its pressure", () => {
    const p = base.Z * rho * 8.31446261815324 * T;
    if (!(base.D > 0 && p > 0)) return;
    const phase = createPhaseWork(mix);
    placePhase(mix, phase, T, x);
    const side = rho > 5000 ? "liquid" : "vapour";
    expect(densityRoot(mix, phase, p, side) / phase.vr.value / rho).toBeCloseTo(1, 10);
  });
});
