import { describe, expect, test } from "vitest";
import { bodyFrom, draftFrom } from "./body.ts";
import type { FieldSpec } from "./spec.ts";

const mass: FieldSpec = {
  kind: "quantity",
  name: "holds.mass",
  label: "Net mass",
  dimensions: ["mass"],
  unit: { us: "lb", si: "kg" },
};
const specs: readonly FieldSpec[] = [
  { kind: "text", name: "name", label: "Name" },
  { kind: "text", name: "oil", label: "Oil", optional: true },
  { kind: "flag", name: "_holds", label: "It holds something" },
  { ...mass, shown: (draft) => draft["_holds"] === "yes" },
  {
    kind: "substance",
    name: "holds.substance",
    label: "What",
    shown: (d) => d["_holds"] === "yes",
  },
  { kind: "lines", name: "claims", label: "Claims" },
];

describe("a form's body", () => {
  test("holds what was typed, at its path, in the unit that was chosen", () => {
    const { body, issues } = bodyFrom("vessel", specs, {
      name: " R1 ",
      _holds: "yes",
      "holds.mass": "2,140",
      "holds.mass.unit": "g",
      "holds.substance": "product:p1",
      claims: "equals 680 g\n\n  no oil needed ",
    });
    // "2,140" could be 2.14 or 2140: the field says so and nothing is guessed.
    expect(issues).toMatchObject([{ field: "holds.mass", value: "2,140" }]);
    expect(body).toEqual({
      name: "R1",
      holds: { substance: { kind: "product", product: "p1" } },
      claims: ["equals 680 g", "no oil needed"],
    });
  });

  test("a compound quantity keeps its larger unit", () => {
    const draft = {
      name: "R1",
      _holds: "yes",
      "holds.mass": "5 lb 8 oz",
      "holds.substance": "fluid:R134a",
    };
    expect(bodyFrom("vessel", specs, draft).body).toMatchObject({
      holds: { mass: { value: 5.5, unit: "lb" }, substance: { kind: "fluid", fluid: "R134a" } },
    });
  });

  test("a hidden field is neither asked nor kept", () => {
    const { body, issues } = bodyFrom("vessel", specs, { name: "R1", "holds.mass": "3" });
    expect(issues).toEqual([]);
    expect(body).toEqual({ name: "R1", claims: [] });
  });

  test("an empty field that is needed is named", () => {
    expect(bodyFrom("vessel", specs, {}).issues.map(({ field }) => field)).toEqual(["name"]);
  });

  test("a body read back into the form gives the same body", () => {
    const body = {
      name: "R1",
      holds: { mass: { value: 318, unit: "g" }, substance: { kind: "fluid", fluid: "R134a" } },
      claims: ["a", "b"],
    };
    const draft = { ...draftFrom(body, specs), _holds: "yes" };
    expect(bodyFrom("vessel", specs, draft)).toEqual({ body, issues: [] });
  });
});
