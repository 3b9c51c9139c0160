import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { hillTown } from "../demonstration/hill-town.ts";
import { project } from "../project.ts";
import { fairComparisonOf } from "./fair-comparison.ts";

const file = (name: string): string =>
  readFileSync(new URL(`../../../data/demonstration/${name}`, import.meta.url), "utf8");
test("x", () => {
  const view = project(
    hillTown({
      baseline: file("hill-town-baseline-us.csv"),
      productB: file("hill-town-product-b-si.csv"),
      hold: file("hill-town-hold.csv"),
    }),
  );
  const b = performance.now();
  const found = fairComparisonOf(view);
  console.log(performance.now() - b);
  console.log(JSON.stringify(found, (k, v) => (typeof v === "number" ? +v.toPrecision(4) : v), 1));
  expect(found.kind).toBe("compared");
});
