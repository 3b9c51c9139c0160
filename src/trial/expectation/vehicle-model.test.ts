import { expect, test } from "vitest";
import demonstration from "../../../data/demonstration/hill-town.json";
import { parseBody, parseExport, project, type VehicleView } from "../index.ts";
import { modelOf } from "./vehicle-model.ts";

const parsed = parseExport(demonstration);
if (parsed.kind !== "export") throw new RangeError("the demonstration does not parse");
const described = project(parsed.events).vehicle;
if (!described) throw new RangeError("the demonstration describes its vehicle");
const vehicle: VehicleView = described;

const body = {
  name: "shuttle",
  labelRefrigerant: "R134a",
  labelCharge: { value: 0.62, unit: "kg" },
  meteringDevice: "expansion-valve",
  compressor: "variable",
};

test("a valve and a variable compressor give the mid-size preset, sized to the label", () => {
  const choice = modelOf(vehicle);
  if (choice.kind === "none") throw new RangeError(choice.why);
  expect(choice.vehicle.preset).toBe("midsize-expansion");
  expect(choice.vehicle.values.labelCharge).toBe(0.62);
});

test("nothing is guessed for kinds without a preset", () => {
  expect(modelOf({ ...vehicle, compressor: "electric" }).kind).toBe("none");
  expect(modelOf({ ...vehicle, meteringDevice: "unknown" }).kind).toBe("none");
});

test("a parameter that the log gives is used, and counts as known", () => {
  const choice = modelOf({
    ...vehicle,
    model: { preset: "midsize-expansion", refined: { displacement: 180e-6 } },
  });
  if (choice.kind === "none") throw new RangeError(choice.why);
  expect(choice.vehicle.values.displacement).toBe(180e-6);
  expect(choice.known).toContain("displacement");
});

test("a parameter that the model does not have is refused by name", () => {
  const model = { preset: "midsize-expansion", refined: { horsepower: 3 } };
  const outcome = parseBody("vehicle-described", { ...body, model });
  expect(outcome.kind === "invalid" && outcome.issues[0]?.field).toBe("model.refined.horsepower");
  const possible = { preset: "midsize-expansion", refined: { displacement: 170e-6 } };
  expect(parseBody("vehicle-described", { ...body, model: possible }).kind).toBe("valid");
});
