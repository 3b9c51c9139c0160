import { expect, test } from "vitest";
import demonstration from "../../data/demonstration/hill-town.json";
import { judgeReading, parseExport, project } from "../trial/index.ts";
import { unitChoice } from "./choose-unit.ts";
import { judgeInUnits } from "./judge-in-units.ts";

const parsed = parseExport(demonstration);
if (parsed.kind !== "export") throw new RangeError("the demonstration does not parse");
const view = project(parsed.events);

test("sentences follow the reader's units, verdicts do not", () => {
  for (const system of ["us", "si"] as const) {
    const judge = judgeInUnits(view, unitChoice(view, system));
    for (const reading of view.readings) {
      const [as, told] = [judgeReading(view, reading), judge(reading)];
      expect(told?.kind).toBe(as?.kind);
      expect(told?.word).toBe(as?.word);
      const said = [told?.sentence, told?.basis].join(" ");
      expect(said).not.toMatch(system === "us" ? /°C|bar\(g\)/u : /°F|psi/u);
    }
  }
});

test("a vacuum read from the air is judged as one in any unit", () => {
  const gauge = view.instruments.find(({ name }) => /low/i.test(name))?.id;
  const judge = judgeInUnits(view, unitChoice(view, "us"));
  const verdict = judge({
    quantity: "vacuum",
    form: "steady",
    typed: { value: 27.7, unit: "inHg(vac)" },
    stage: "evacuate",
    ...(gauge !== undefined && { instrument: gauge }),
  });
  expect(verdict?.word).toBe("gauge cannot tell");
});
