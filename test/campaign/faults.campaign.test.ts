// The long version of test/faults/faults.test.ts: hidden faults and hidden sound vehicles.
import { expect, test } from "vitest";
import { scoredFaults, scoredSound, separable, share, tableOf } from "../faults/campaign.ts";

const count = 500;

test(`${String(count)} hidden faults`, { timeout: 3_600_000 }, () => {
  const all = scoredFaults(2024, count);
  console.info(tableOf(all));
  const far = all.filter(({ distance }) => distance >= separable);
  expect(far.length).toBeGreaterThan(40);
  expect(share(far, ({ leadingFault, truth }) => leadingFault === truth)).toBeGreaterThanOrEqual(
    0.85,
  );
});

test(`${String(count)} sound vehicles`, { timeout: 3_600_000 }, () => {
  const all = scoredSound(2025, count);
  const healthy = share(all, ({ named }) => named === "healthy");
  const accused = all.flatMap(({ named }) =>
    named === "healthy" || named === "undecided" ? [] : [named],
  );
  console.info(`called healthy ${healthy.toFixed(3)}; a fault named: ${accused.join(" ")}`);
  expect(healthy).toBeGreaterThanOrEqual(0.95);
});
