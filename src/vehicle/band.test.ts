import { expect, test } from "vitest";
import { runs, scenario, tableConditions } from "../../test/vehicle/scenario.ts";
import { bandOf } from "./index.ts";

const request = scenario({
  preset: "large-orifice",
  fluid: "R134a",
  charge: 1,
  conditions: tableConditions.i32,
});
const nominal = runs(request);

test("a band holds its value, and what is known drops out", () => {
  const wide = bandOf(request, nominal);
  const narrow = bandOf(request, nominal, ["fanFlow", "preheat", "airFlow", "evaporatorAirUA"]);
  for (const name of ["low", "high", "vent", "capacity", "cop"] as const) {
    const [a, b] = [wide.limits[name], narrow.limits[name]];
    if (!a || !b) throw new Error(name);
    expect(nominal[name]).toBeGreaterThan(a.from);
    expect(nominal[name]).toBeLessThan(a.to);
    expect(b.to - b.from).toBeLessThan(a.to - a.from);
  }
  expect(wide.missing).toEqual([]);
});

test("a starved system has a wider vent band than a full one", () => {
  const short = scenario({
    preset: "large-orifice",
    fluid: "R134a",
    charge: 0.6,
    conditions: tableConditions.i32,
  });
  const [full, starved] = [bandOf(request, nominal), bandOf(short, runs(short))];
  const width = (band: typeof full): number => {
    const vent = band.limits.vent;
    return vent ? vent.to - vent.from : 0;
  };
  expect(width(starved)).toBeGreaterThan(width(full));
});
