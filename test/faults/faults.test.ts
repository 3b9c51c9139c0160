// A small sample of test/campaign/faults.campaign.test.ts.
import { expect, test } from "vitest";
import { scoredFaults, scoredSound, separable, share } from "./campaign.ts";

test("hidden faults: those far from everything else lead", { timeout: 120_000 }, () => {
  const far = scoredFaults(7, 20).filter(({ distance }) => distance >= separable);
  expect(share(far, ({ leadingFault, truth }) => leadingFault === truth)).toBeGreaterThanOrEqual(
    0.8,
  );
});

// The target is 95 % of 500. Of 12 at that rate fewer than 10 would be called healthy in 2 % of samples.
test("hidden sound vehicles are called healthy", { timeout: 120_000 }, () => {
  const all = scoredSound(8, 12);
  expect(all.filter(({ named }) => named === "healthy").length).toBeGreaterThanOrEqual(10);
});
