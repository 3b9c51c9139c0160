import fc from "fast-check";
import { expect, test } from "vitest";
import { bodySchemas, type EventType } from "./events.ts";
import { hillTown } from "./demonstration/hill-town.ts";
import { parseBody, parseEvent } from "./parse.ts";

const [opening] = hillTown({ baseline: "", productB: "", hold: "" });
const where = { stage: "recover" };
const g = (value: number) => ({ value, unit: "g" });

/** Fields objected to; empty when the body is valid. */
function objections(type: EventType, body: unknown): string[] {
  const parsed = parseBody(type, body);
  return parsed.kind === "valid" ? [] : parsed.issues.map(({ field }) => field);
}

test("a good event passes and comes back as it was", () => {
  expect(parseEvent(opening)).toEqual({ kind: "event", event: opening });
});

test("the envelope is looked at first, and each objection names its field", () => {
  const parsed = parseEvent({ ...opening, id: "7", at: "yesterday", extra: 1 });
  expect(parsed.kind).toBe("invalid");
  if (parsed.kind !== "invalid") return;
  expect(parsed.issues.map(({ field }) => field).sort()).toEqual(["(whole)", "at", "id"]);
  expect(parsed.issues.find(({ field }) => field === "at")).toMatchObject({ value: "yesterday" });
});

test("units belong to their dimension", () => {
  const reading = (quantity: string, value: number, unit: string) =>
    objections("reading-taken", { ...where, quantity, form: "steady", value: { value, unit } });
  expect(reading("vent-temperature", 45, "°F")).toEqual([]);
  expect(reading("vent-temperature", 45, "psig")).toEqual(["value.unit"]);
  expect(reading("vent-temperature", 45, "furlong")).toEqual(["value.unit"]);
  expect(reading("vent-temperature", -500, "°F")).toEqual(["value.value"]);
  expect(reading("return-air-humidity", 120, "%")).toEqual(["value.value"]);
  expect(reading("low-side", -2, "bar(g)")).toEqual(["value.value"]);
  expect(reading("low-side", 1e300, "bar(g)")).toEqual(["value.value"]);
  // A full vacuum in high-pressure weather still is a reading.
  expect(reading("vacuum", 30.4, "inHg(vac)")).toEqual([]);
});

test("a barometer is absolute and could be air", () => {
  const opened = (barometer: unknown) =>
    objections("trial-opened", { title: "x", question: "y", barometer });
  expect(opened({ value: 1013, unit: "mbar" })).toEqual([]);
  expect(opened({ value: 14.7, unit: "psig" })).toEqual(["barometer.value"]);
  expect(opened({ value: 20, unit: "inHg(vac)" })).toEqual(["barometer.value"]);
  expect(opened({ value: 3, unit: "bar" })).toEqual(["barometer.value"]);
  const altitude = { value: 20_000, unit: "m" };
  expect(objections("trial-opened", { title: "x", question: "y", altitude })).toHaveLength(1);
});

test("masses that are stated are positive; a transfer needs evidence", () => {
  const transfer = (extra: object) =>
    objections("transfer-posted", { ...where, from: "vehicle", to: "lost", ...extra });
  expect(transfer({})).toEqual(["(whole)"]);
  expect(transfer({ stated: { mass: g(3), limit: g(2) } })).toEqual([]);
  expect(transfer({ stated: { mass: g(-3), limit: g(2) } })).toEqual(["stated.mass.value"]);
  expect(transfer({ stated: { mass: g(3), limit: g(0) } })).toEqual(["stated.limit.value"]);
});

test("a gauge's scale rises and is given in pressures", () => {
  const gauge = (from: number, to: number, unit = "bar(g)") =>
    objections("instrument-listed", {
      name: "gauge",
      measures: "pressure",
      accuracy: {
        kind: "percent-of-span",
        percent: 1.6,
        from: { value: from, unit },
        to: { value: to, unit },
      },
    });
  expect(gauge(-1, 10)).toEqual([]);
  expect(gauge(10, -1)).toEqual(["accuracy.to.value"]);
  expect(gauge(0, 1, "kg").length).toBeGreaterThan(0);
});

test("nothing makes parsing throw", () => {
  const types = Object.keys(bodySchemas) as EventType[];
  const property = fc.property(fc.constantFrom(...types), fc.anything(), (type, body) => {
    expect(["valid", "invalid"]).toContain(parseBody(type, body).kind);
    expect(parseEvent({ ...opening, type, body }).kind).toMatch(/event|invalid/u);
    expect(parseEvent(body).kind).toBe("invalid");
  });
  fc.assert(property, { seed: 1, numRuns: 500 });
});
