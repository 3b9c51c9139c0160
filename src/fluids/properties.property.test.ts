// Identities that hold for any Helmholtz energy, whatever its coefficients.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  CP,
  createStateWork,
  CV,
  DP_DRHO,
  DP_DT,
  evaluateProperties,
  fluid,
  fluidIds,
  H,
  MW2,
  P,
  S,
  U,
  stateTRho,
  type PureFluid,
} from "./index.ts";

const runs = { seed: 7, numRuns: 40 };

/** A homogeneous state away from the critical region, where differences lose their digits. */
function anyState(pure: PureFluid): fc.Arbitrary<{ T: number; rho: number }> {
  const { info, critical } = pure;
  return fc
    .record({
      T: fc.double({ min: info.Tmin * 1.02, max: info.Tmax * 0.98, noNaN: true }),
      share: fc.double({ min: 0.001, max: 2.6, noNaN: true }),
    })
    .map(({ T, share }) => ({ T, rho: share * critical.rho }))
    .filter(({ T, rho }) => {
      const state = stateTRho(pure, T, rho);
      return state.kind === "state" && state.q === null && (state.cp ?? 0) < 20 * (state.cv ?? 0);
    });
}

/** Fourth-order central difference of an output in T or ρ. */
function difference(
  pure: PureFluid,
  place: number,
  along: "T" | "rho",
  { T, rho }: { T: number; rho: number },
): number {
  const work = createStateWork(pure);
  const at = (step: number): number => {
    const factor = 1 + step;
    evaluateProperties(
      pure,
      along === "T" ? T * factor : T,
      along === "rho" ? rho * factor : rho,
      work,
    );
    return work.out[place] ?? Number.NaN;
  };
  const h = 1e-4;
  const slope = (8 * (at(h) - at(-h)) - (at(2 * h) - at(-2 * h))) / (12 * h);
  return slope / (along === "T" ? T : rho);
}

describe("identities of thermodynamics", () => {
  for (const id of fluidIds) {
    test(id, () => {
      const pure = fluid(id);
      const { R } = pure;
      const work = createStateWork(pure);
      fc.assert(
        fc.property(anyState(pure), (state) => {
          const { T, rho } = state;
          evaluateProperties(pure, T, rho, work);
          const out = [...work.out];
          const at = (place: number): number => out[place] ?? Number.NaN;
          const close = (a: number, b: number, scale: number): void => {
            expect(Math.abs(a - b) / scale).toBeLessThan(3e-7);
          };
          const stiff = Math.max(R * T, Math.abs(at(DP_DRHO)));
          // Derivatives are those of the values.
          close(difference(pure, P, "T", state), at(DP_DT), rho * R + Math.abs(at(DP_DT)));
          close(difference(pure, P, "rho", state), at(DP_DRHO), stiff);
          close(difference(pure, U, "T", state), at(CV), at(CV));
          // Maxwell: −ρ²(∂s/∂ρ)_T = (∂p/∂T)_ρ.
          const maxwell = -rho * rho * difference(pure, S, "rho", state);
          close(maxwell, at(DP_DT), rho * R + Math.abs(at(DP_DT)));
          // T·ds = cv·dT at constant ρ, and h = u + p/ρ.
          close(T * difference(pure, S, "T", state), at(CV), at(CV));
          close(at(H), at(U) + at(P) / rho, R * T);
          // cp − cv = T·(∂p/∂T)²/(ρ²·∂p/∂ρ), and M·w² = (cp/cv)·∂p/∂ρ.
          const gap = (T * at(DP_DT) ** 2) / (rho ** 2 * at(DP_DRHO));
          close(at(CP) - at(CV), gap, at(CP));
          close(at(MW2), (at(CP) / at(CV)) * at(DP_DRHO), at(MW2));
        }),
        runs,
      );
    });
  }
});

test("at zero density every fluid is the ideal gas", () => {
  for (const id of fluidIds) {
    const pure = fluid(id);
    const work = createStateWork(pure);
    const T = 0.5 * (pure.info.Tmin + pure.info.Tmax);
    evaluateProperties(pure, T, 0, work);
    const [p, h, u, cv, cp] = [P, H, U, CV, CP].map((place) => work.out[place] ?? Number.NaN);
    expect(p).toBe(0);
    expect((h ?? 0) - (u ?? 0)).toBeCloseTo(pure.R * T, 6);
    expect((cp ?? 0) - (cv ?? 0)).toBeCloseTo(pure.R, 10);
    expect(work.out[S]).toBe(Infinity);
  }
});
