import { expect, test } from "vitest";
import { compute } from "./index.ts";

const rows = [0, 2, 4, 6, 8, 10, 12, 14, 16, 18];
const hold = (micron: (minutes: number) => number): string =>
  rows.map((t) => `${t} min, ${Math.round(micron(t))} micron`).join("\n");

const classOf = (trace: string, more = {}): unknown =>
  compute("vacuum-hold", { trace, T: "20 °C", volume: "3 L", ...more });

test.each([
  ["tight", (t: number) => 400 + (t % 4)],
  ["leaking", (t: number) => 400 + 400 * t],
  ["outgassing", (t: number) => 400 + 700 * (1 - Math.exp(-t / 3))],
  // Water at 20 °C: 17 546 micron.
  ["wet", (t: number) => 17_546 - 17_146 * Math.exp(-t / 4)],
])("%s", (name, micron) => {
  expect(classOf(hold(micron))).toMatchObject({ kind: "answer", result: { class: name } });
});

test("1000 micron in 10 min in 3 L is about 6.67e-4 Pa m3/s, and hundreds of grams a year and more under pressure", () => {
  const answer = classOf(
    hold((t) => 300 + 100 * t),
    { fluid: "R134a" },
  );
  expect(answer).toMatchObject({ kind: "answer", result: { class: "leaking" } });
  const { leak } = (
    answer as {
      result: { leak: Record<"rate" | "from" | "to", number> & { perYear: { laminar: number } } };
    }
  ).result;
  expect(leak.from).toBeLessThan(6.67e-4);
  expect(leak.to).toBeGreaterThan(6.67e-4);
  expect(Math.abs(leak.rate / 6.67e-4 - 1)).toBeLessThan(0.05);
  expect(leak.perYear.laminar).toBeGreaterThan(1);
});

test("bad rows are named", () => {
  expect(
    classOf("0 min, 400 micron\n1 min, much\n2 min, 500 micron\n3 min, 600 micron"),
  ).toMatchObject({
    kind: "invalid",
    issues: [{ field: "trace[1].p" }],
  });
  expect(classOf("0 min, 400 micron")).toMatchObject({ kind: "invalid" });
});

test("narrow hoses hold a pump up below 1000 Pa, and a pump that cannot go so deep says so", () => {
  const given = {
    volume: "4 L",
    pump: { flow: "142 L", ultimate: "20 micron" },
    hoses: [{ bore: "4.8 mm", length: "1.8 m" }],
    to: "500 micron",
    T: "20 °C",
  };
  expect(compute("pump-down", given)).toMatchObject({
    kind: "answer",
    result: { reached: true, limit: "hose" },
  });
  expect(compute("pump-down", { ...given, to: "10 micron" })).toMatchObject({
    kind: "answer",
    result: { reached: false, limit: "pump" },
  });
});

test("how deep is enough at 1000 m", () => {
  const answer = compute("evacuation-depth", { T: "20 °C", altitude: "1000 m" });
  expect(answer).toMatchObject({ kind: "answer", result: { warmFirst: false } });
});
