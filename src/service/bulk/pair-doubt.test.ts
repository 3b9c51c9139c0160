import { expect, test } from "vitest";
import { materialOf, pressureDoubt } from "../index.ts";
import type { BulkOutcome } from "./bulk.ts";

const half = (a: "R12" | "R290" | "R600a", b: "R290" | "R600a" | "R1270") =>
  materialOf([
    { fluid: a, fraction: 0.5 },
    { fluid: b, fraction: 0.5 },
  ]);
const sameAgain = (): BulkOutcome => ({ kind: "bulk", p: 1e6 }) as BulkOutcome;

test("a pair without a fit is doubted more, and most between unlike fluids", () => {
  // R290/R600a is a published fit; R12 with a hydrocarbon has no published parameters in this collection.
  expect(pressureDoubt(half("R290", "R600a"), 1e6, sameAgain)).toBeCloseTo(1e4, 6);
  expect(pressureDoubt(half("R12", "R290"), 1e6, sameAgain)).toBeCloseTo(3e5, 6);
});
