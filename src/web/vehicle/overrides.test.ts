import { expect, test } from "vitest";
import { compute, vehicleParameters, vehiclePresets } from "../../calculations/index.ts";
import type { FieldDraft } from "../fields/field-draft.ts";
import { overridesOf, typedOverrides } from "./overrides.ts";

const draftOf = (fields: Readonly<Record<string, string>>): FieldDraft => ({
  prefix: "vehicle",
  start: () => Promise.resolve(),
  change: () => undefined,
  field: (name, initial = "") => fields[name] ?? initial,
});

// Typing each default in the unit beside its field must give the vehicle that it is without.
test.each(vehiclePresets)("defaults of $name typed by hand change nothing", (preset) => {
  const parameters = vehicleParameters(preset.name, preset.labelCharge);
  const typed = typedOverrides(
    Object.fromEntries(parameters.map(({ name, value }) => [name, value])),
    parameters,
  );
  const ask = (own: Readonly<Record<string, unknown>>) =>
    compute("vehicle", {
      vehicle: { preset: preset.name, labelCharge: preset.labelCharge, ...own },
      fluid: "R134a",
      charge: preset.labelCharge,
      ambient: 305,
      humidity: 0.5,
    });
  const [before, after] = [ask({}), ask(overridesOf(draftOf(typed), parameters))];
  if (before.kind !== "answer" || after.kind !== "answer") {
    throw new Error(JSON.stringify([before, after]));
  }
  const readings = ({ result }: typeof before) => result as Record<"low" | "high" | "vent", number>;
  for (const name of ["low", "high", "vent"] as const) {
    const [one, other] = [readings(before)[name], readings(after)[name]];
    expect(Math.abs(other / one - 1)).toBeLessThan(1e-4);
  }
});
