import { expect, test } from "vitest";
import { inspectTable, project } from "../../trial/index.ts";
import { preferences } from "../shell/preferences.ts";
import { doubled, isRemembered, mappingOf, rememberMapping, startMapping } from "./mapping.ts";

const file = [
  "Zeit;ND kPa;HD kPa;km/h",
  "15.06.2026 13:05:00;424;451;0,0",
  "15.06.2026 13:05:01;406;471;0,5",
].join("\n");

test("suggestions are a form that gives a mapping, and a confirmed one is remembered for its headings", () => {
  const inspection = inspectTable(file);
  const start = startMapping(inspection);
  expect(isRemembered(inspection)).toBe(false);
  const mapping = mappingOf(project([]), inspection, { ...start, "1.unit": "kPa" });
  expect(mapping).toMatchObject({ decimal: ",", time: { column: "Zeit", form: "day-first" } });
  if (!mapping) throw new Error("the suggestions name a time and a column");
  rememberMapping(inspection, mapping);
  const next = inspectTable(file.replaceAll("424", "500"));
  expect(isRemembered(next)).toBe(true);
  expect(mappingOf(project([]), next, startMapping(next))).toEqual(mapping);
  expect(Object.keys(preferences.value.mappings)).toHaveLength(1);
});

test("no mapping without a time column, and the same quantity twice is told", () => {
  const inspection = inspectTable(file);
  const start = startMapping(inspection);
  expect(mappingOf(project([]), inspection, { ...start, "time.column": "" })).toBeUndefined();
  const twice = mappingOf(project([]), inspection, { ...start, "2.quantity": "low-side" });
  expect(twice && doubled(twice)).toEqual(["low-side"]);
});
