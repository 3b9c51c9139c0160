import { describe, expect, test } from "vitest";
import { project, type TrialView } from "../../trial/index.ts";
import { unitChoice, type UnitSystem } from "../choose-unit.ts";
import { judge, shuttle } from "../shuttle.fixture.ts";
import { renderPage } from "./page.tsx";

const pageOf = (view: TrialView, system: UnitSystem = "si"): string =>
  renderPage({
    view,
    units: unitChoice(view, system),
    judge: ({ quantity }) => judge(quantity),
    generatedAt: "2026-06-20T12:00:00Z",
    events: 71,
  });

const bodyOf = (html: string): string => html.slice(html.indexOf("<body"));

/** Every text of a value replaced, at any depth; keys that the code switches on keep theirs. */
const keys = new Set(
  "id kind type stage round status quantity form unit when at entry start from to account leg evidence phase grade condition airSource blower basis standing reason measures trace run instrument product fluid meteringDevice compressor generatedAt vessel clock item".split(
    " ",
  ),
);
function attacked(value: unknown, attack: string, key = ""): unknown {
  if (typeof value === "string") return keys.has(key) ? value : attack;
  if (value instanceof Float64Array || value instanceof Map) return value;
  if (Array.isArray(value)) return value.map((one) => attacked(one, attack, key));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, field]) => [name, attacked(field, attack, name)]),
  );
}

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");

/** Says whether, without printing a whole page when not. */
const expectText = (html: string, text: string): void => {
  expect({ text, found: html.includes(text) }).toEqual({ text, found: true });
};

describe("the page of a trial", () => {
  test.each(["us", "si", "as-typed"] as const)("in %s is whole and asks for nothing", (system) => {
    const html = pageOf(shuttle, system);
    expect(html.startsWith("<!doctype html>")).toBe(true);
    expect(
      /<script|<link|<img|<iframe|url\((?!#)|@import|https?:/i.exec(html)?.[0],
    ).toBeUndefined();
    expect(/ style=|NaN|Infinity|undefined|\[object/.exec(bodyOf(html))?.[0]).toBeUndefined();
  });

  test("names every element once", () => {
    const ids = [...pageOf(shuttle).matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test("every reference inside it leads somewhere", () => {
    const html = pageOf(shuttle);
    const ids = new Set([...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id));
    const named = [...html.matchAll(/(?:href="#|url\(#)([^")]+)/g)].map(([, id]) => id);
    const labels = [...html.matchAll(/aria-labelledby="([^"]+)"/g)].flatMap(([, text]) =>
      (text ?? "").split(" "),
    );
    for (const id of [...named, ...labels]) expect(ids).toContain(id);
  });

  test("an unproven content is treated as the worst, among hazards and cautions alike", () => {
    const html = pageOf(shuttle);
    for (const section of ["hazards", "cautions"]) {
      const from = html.slice(html.indexOf(`<section id="${section}"`));
      expectText(from.slice(0, from.indexOf("</section>")), "It is treated as the worst that is");
    }
  });

  test("says first what was asked, and does not decide what no evidence decides", () => {
    const html = pageOf(shuttle);
    const answer = html.slice(html.indexOf('id="answer"'), html.indexOf('id="equal"'));
    expectText(answer, "equals 680 g of R134a");
    expectText(answer, "not made in equal conditions");
    expect(/Does it cool as well as R134a\?[\s\S]{0,300}undecided/.test(answer)).toBe(true);
    expectText(answer, "does not close");
  });

  test("keeps the first entry in sight, struck, with the reason of its correction", () => {
    const html = pageOf(shuttle);
    expect(/<s>[^<]*318[^<]*140[^<]*<\/s>/.test(html)).toBe(true);
    expectText(html, "The digits of the empty can were swapped");
    expectText(html, "Read on the wrong pipe.");
  });

  test("lists what was refused, what was kept aside and what is missing", () => {
    const html = pageOf(shuttle);
    expectText(html, "furlong");
    expectText(html, "over the range of the instrument");
    expectText(html, "No weighing of the second can.");
  });

  test("an empty log gives a page that says what is not there", () => {
    const html = pageOf(project([]));
    expectText(html, "No question was written down.");
    expect(/NaN|undefined/.exec(bodyOf(html))?.[0]).toBeUndefined();
  });

  test.each([
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "</style><svg onload=alert(1)>",
    "'\" onmouseover=alert(1) x='",
    "]]><!-- <a href=javascript:alert(1)>",
    "&lt;b&gt; &amp;",
  ])("writes %s as text wherever it stands", (attack) => {
    const html = pageOf(attacked(shuttle, attack) as TrialView);
    const tags = [...html.matchAll(/<(\/?[a-z!][^\s>/]*)/gi)].map(([, name]) => name);
    const known = new Set(
      [...pageOf(shuttle).matchAll(/<(\/?[a-z!][^\s>/]*)/gi)].map(([, n]) => n),
    );
    for (const name of new Set(tags)) expect(known).toContain(name);
    // Quoted values stand aside: what is left of a tag is its own attributes.
    const bare = html.replaceAll(/"[^"]*"/g, '""');
    expect(/<[^>]* on[a-z]+\s*=/i.test(bare)).toBe(false);
    expectText(html, escaped(attack));
  });
});
