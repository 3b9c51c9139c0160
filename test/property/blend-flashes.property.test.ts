// A deterministic part of the campaign in test/campaign/blend-flashes.campaign.test.ts, and tangent-plane scans.
import { describe, expect, test } from "vitest";
import { bubbleAtT, dewAtT, mixStateTP, mixture, type FluidId } from "../../src/fluids/index.ts";
import { createRandom } from "../../src/numerics/index.ts";
import { randomCase, runBlendFlashes } from "./blend-flashes.ts";
import { lowestTangentDistance } from "./tangent-plane.ts";

test("random flashes: none fails, each inverts to 1e-8, phases meet equal fugacity", () => {
  const { twoPhase, failures, worst } = runBlendFlashes(400, 11);
  expect(failures).toEqual([]);
  expect(twoPhase).toBeGreaterThan(100);
  for (const [what, value] of Object.entries(worst)) expect(value, what).toBeLessThan(1e-8);
});

/** Composition and T, p of a scan and the root solvers leave this much. */
const rounding = 1e-10;

test("no phase of any composition lies below the tangent plane of random binary states", () => {
  const random = createRandom(5);
  let scanned = 0;
  while (scanned < 60) {
    const { mix, z, T, p } = randomCase(random);
    if (mix.n !== 2) continue;
    scanned++;
    const found = mixStateTP(mix, z, T, p);
    if (found.kind !== "state") throw new Error(JSON.stringify(found));
    const where = `${mix.ids.join("+")} ${String(z[0])} ${String(T)} K ${String(p)} Pa ${found.phase}`;
    expect(lowestTangentDistance(mix, found), where).toBeGreaterThan(-rounding);
  }
});

const nearAzeotropes: readonly (readonly [readonly [FluidId, FluidId], number])[] = [
  [["R134a", "R290"], 0.3],
  [["R134a", "R290"], 0.35],
  [["R152a", "R600a"], 0.7],
  [["R152a", "R600a"], 0.75],
];

describe.each(nearAzeotropes)("%j, first fraction %d", (ids, share) => {
  const mix = mixture(ids);
  const z = [share, 1 - share];

  test.each([240, 270, 300, 330])("at %d K no split is missed and none invented", (T) => {
    const [bubble, dew] = [bubbleAtT(mix, z, T), dewAtT(mix, z, T)];
    if (bubble.kind !== "state" || dew.kind !== "state") throw new Error("no bubble or dew point");
    expect(dew.p).toBeLessThan(bubble.p);
    for (const part of [-0.3, -0.01, 0.01, 0.3, 0.5, 0.7, 0.99, 1.01, 1.3]) {
      const p = dew.p + part * (bubble.p - dew.p);
      const found = mixStateTP(mix, z, T, p);
      if (found.kind !== "state") throw new Error(JSON.stringify(found));
      const where = `${String(part)} of the way from dew to bubble point`;
      expect(found.phase === "two-phase", where).toBe(part > 0 && part < 1);
      expect(lowestTangentDistance(mix, found, 200), where).toBeGreaterThan(-rounding);
    }
  });
});
