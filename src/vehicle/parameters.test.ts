import { describe, expect, test } from "vitest";
import {
  applies,
  parameterInfo,
  parameterNames,
  plausibleRange,
  presetNames,
  presetVehicle,
  refineVehicle,
} from "./index.ts";

describe.each(presetNames)("%s", (preset) => {
  const vehicle = presetVehicle(preset);

  test("every parameter has a value inside its range, a unit, a meaning and a source", () => {
    for (const name of parameterNames) {
      const { unit, what, source } = parameterInfo(name);
      expect(unit.length, name).toBeGreaterThan(0);
      expect(what.length, name).toBeGreaterThan(5);
      expect(source, name).toMatch(/source|facts|maker|fitted|judged/u);
      if (!applies(vehicle, name)) {
        expect(vehicle.values[name], name).toBe(0);
        continue;
      }
      const { from, to } = plausibleRange(vehicle, name);
      expect(vehicle.values[name], name).toBeGreaterThanOrEqual(from);
      expect(vehicle.values[name], name).toBeLessThanOrEqual(to);
    }
  });

  test("the ends of every plausible range are accepted", () => {
    for (const name of parameterNames.filter((each) => applies(vehicle, each))) {
      for (const value of Object.values(plausibleRange(vehicle, name)) as number[]) {
        expect(refineVehicle(preset, { [name]: value }).kind, `${name} ${value}`).toBe("vehicle");
      }
    }
  });
});

test("overrides are put in, and only they", () => {
  const outcome = refineVehicle("large-orifice", { displacement: 2e-4, orificeArea: 2e-6 });
  if (outcome.kind !== "vehicle") throw new Error(outcome.kind);
  const base = presetVehicle("large-orifice").values;
  expect(outcome.vehicle.values).toEqual({ ...base, displacement: 2e-4, orificeArea: 2e-6 });
});

test.each([
  [{ displacement: "big" }, "displacement"],
  [{ displacement: NaN }, "displacement"],
  [{ displacement: 1 }, "displacement"],
  [{ wheels: 4 }, "wheels"],
  [{ __proto__: null, toString: 1 }, "toString"],
  [{ valveSpring: 45e3 }, "valveSpring"],
  [{ mechanicalEfficiency: 1.05 }, "mechanicalEfficiency"],
  [{ switchOpens: 300e3, switchCloses: 200e3 }, "switchOpens"],
])("refused: %j", (overrides, field) => {
  const outcome = refineVehicle("large-orifice", overrides);
  expect(outcome.kind === "invalid" && outcome.issues[0]?.field).toBe(field);
});
