import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { harbour } from "./harbour.ts";
import { harbourLesson } from "./lesson.ts";

const lesson = harbourLesson(harbour());
const entries = Object.values(lesson.parts).flat();

test("the committed file is what the notes give", () => {
  const file: unknown = JSON.parse(readFileSync("data/demonstration/lesson.json", "utf8"));
  expect(file).toEqual(JSON.parse(JSON.stringify(lesson)));
});

test("every part has its entries, and every name that is referred to is listed", () => {
  for (const [part, inside] of Object.entries(lesson.parts)) {
    expect(inside.length, part).toBeGreaterThan(0);
  }
  const text = JSON.stringify(entries);
  const names = new Set(
    entries.flatMap(({ body }) =>
      [body["name"], body["fileName"]].map((name) => `@${String(name)}`),
    ),
  );
  const referred = [...text.matchAll(/"(@[^"]+)"/g)].map(([, name]) => name);
  expect(referred.length).toBeGreaterThan(30);
  expect(referred.filter((name) => !names.has(name ?? ""))).toEqual([]);
  // An id of the long story would belong to no entry of a new trial.
  expect(text).not.toMatch(/[0-9a-f]{8}-[0-9a-f]{4}-7/);
});
