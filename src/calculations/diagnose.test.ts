import { describe, expect, test } from "vitest";
import { compute } from "./compute.ts";
import type { DiagnosisResult } from "./diagnose-answer.ts";

const system = {
  vehicle: { preset: "midsize-expansion", labelCharge: "0.6 kg" },
  fluid: "R134a",
  charge: "0.6 kg",
};
const idle = {
  ambient: "32 °C",
  humidity: 0.45,
  readings: { low: "31 psig", high: "250 psig", vent: "12 °C", static: "125 psig", metal: "32 °C" },
};
const road = {
  name: "Road",
  ambient: "31 °C",
  humidity: 0.45,
  speed: "80 km/h",
  engineSpeed: "1700 rpm",
  pulldown: 0.85,
  readings: { low: "29 psig", high: "190 psig", vent: "9 °C" },
};

function resultOf(input: object): DiagnosisResult {
  const answer = compute("diagnose", input);
  if (answer.kind !== "answer") throw new Error(JSON.stringify(answer));
  return answer.result as DiagnosisResult;
}

const fieldsOf = (input: object): readonly string[] => {
  const answer = compute("diagnose", input);
  return answer.kind === "invalid" ? answer.issues.map(({ field }) => field) : [];
};

describe("several runs", () => {
  test("one run in the list is the run beside the conditions", () => {
    const alone = resultOf({ ...system, ...idle });
    const listed = resultOf({ ...system, runs: [idle] });
    expect(listed).toEqual(alone);
    expect(alone.runs).toEqual(["this run"]);
  });

  test("are told apart by name or number, in readings, signs and what to read next", () => {
    const { runs, readings, faults, next } = resultOf({ ...system, runs: [idle, road] });
    expect(runs).toEqual(["run 1", "Road"]);
    expect(readings.map(({ run, reading }) => `${run} ${reading}`)).toEqual([
      ...["0 low", "0 high", "0 vent", "0 static"],
      ...["1 low", "1 high", "1 vent"],
    ]);
    for (const { signs } of faults) {
      expect(signs.map(({ run }) => run)).toEqual(readings.map(({ run }) => run));
    }
    for (const { where, run, says } of next.filter((one) => one.where === "here")) {
      expect([where, says]).toEqual([
        "here",
        expect.stringContaining(run === 1 ? "Road" : "run 1"),
      ]);
    }
  });
});

test("a fault that moves the vent alone: one sign is said, and that only the hand can confirm it", () => {
  const warm = { ...idle.readings, high: "200 psig", static: "104 psig", vent: "19 °C" };
  const { named, suspected, sentence, faults, next } = resultOf({
    ...{ ...system, ...idle },
    readings: warm,
  });
  expect([named, suspected]).toEqual(["undecided", "heat-leak"]);
  expect(sentence).toContain("One sign only: the vent temperature.");
  expect(sentence).toContain("confirm it by hand");
  expect(sentence).not.toContain("next reading");
  expect(faults[0]?.settles).toContain("By hand");
  // While something else is as good as possible, a reading can still rule it out; then none is left that helps.
  expect(next.length).toBeGreaterThan(0);
  const runs = [
    { ...idle, readings: warm },
    { ...road, readings: { ...road.readings, vent: "17 °C" } },
  ];
  const hot = resultOf({ ...system, runs });
  expect([hot.suspected, hot.next]).toEqual(["heat-leak", []]);
});

describe("what is refused", () => {
  test("neither form: each missing field by name", () => {
    expect(fieldsOf(system)).toEqual(["ambient", "humidity", "readings"]);
    expect(fieldsOf({ ...system, readings: idle.readings })).toEqual(["ambient", "humidity"]);
  });
  test("both forms: what stands beside the runs", () => {
    expect(fieldsOf({ ...system, ...idle, runs: [road] })).toEqual([
      "ambient",
      "humidity",
      "readings",
    ]);
  });
  test("no run, and a run without its weather", () => {
    expect(fieldsOf({ ...system, runs: [] })).toEqual(["runs"]);
    const noWeather = { humidity: road.humidity, readings: road.readings };
    expect(fieldsOf({ ...system, runs: [idle, noWeather] })).not.toEqual([]);
  });
});
