import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import { describe, expect, test } from "vitest";
import { root } from "../kill/bundle.ts";
import { stages } from "../../src/trial/index.ts";

const docs = join(root, "docs");
const manual = join(docs, "manual");
const pictures = join(manual, "pictures");

const pages = readdirSync(docs, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".md"))
  .map((name) => join("docs", name))
  .concat("README.md");

/** Targets of links and pictures that are files of this checkout. */
const targetsIn = (text: string): readonly string[] =>
  [...text.matchAll(/\]\(([^)\s]+)\)/g)]
    .map(([, target = ""]) => target.replace(/#.*$/, ""))
    .filter((target) => target !== "" && !/^[a-z]+:/i.test(target));

test.each(pages)("every link of %s leads to a file", (page) => {
  const text = readFileSync(join(root, page), "utf8").replace(/```[\s\S]*?```|`[^`\n]*`/g, "");
  const lost = targetsIn(text).filter(
    (target) => !existsSync(normalize(join(root, dirname(page), target))),
  );
  expect(lost).toEqual([]);
});

describe("the manual", () => {
  const text = (page: string): string => readFileSync(join(manual, page), "utf8");

  test("has a page for each stage, and its first page leads to all of them", () => {
    const contents = targetsIn(text("README.md"));
    for (const stage of stages) {
      expect(contents, stage).toContain(`${stage}.md`);
      expect(text(`${stage}.md`), stage).toMatch(/^\*\*True at its end:\*\*/m);
    }
    const there = readdirSync(manual).filter((name) => /(?<!README)\.md$/.test(name));
    expect(there.filter((name) => !contents.includes(name))).toEqual([]);
  });

  test("uses every picture, says in words what is on it, and keeps each small", () => {
    const shown = readdirSync(manual)
      .filter((name) => name.endsWith(".md"))
      .flatMap((name) => [...text(name).matchAll(/!\[([^\]]*)\]\(pictures\/([^)]+)\)/g)]);
    for (const [, words = ""] of shown) expect(words.length).toBeGreaterThan(30);
    const files = readdirSync(pictures);
    expect(new Set(shown.map(([, , file]) => file))).toEqual(new Set(files));
    expect(files.length).toBeLessThanOrEqual(16);
    for (const file of files) {
      const path = join(pictures, file);
      expect(readFileSync(path).subarray(1, 4).toString("latin1"), file).toBe("PNG");
      expect(statSync(path).size, file).toBeLessThan(64_000);
    }
  });
});
