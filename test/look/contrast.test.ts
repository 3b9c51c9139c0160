import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";

/**
 * Readable in glare: contrast of every colour token as the style sheets use it, in both looks.
 * Source of the ratio and of the relative luminance: W3C, Web Content Accessibility Guidelines 2.2, definitions
 * "contrast ratio" and "relative luminance". Least ratios: success criteria 1.4.6 (text, 7:1) and 1.4.11 (what has
 * to be seen of controls and pictures, 3:1).
 */
const root = join(import.meta.dirname, "../..");
const sheets = ["src/report", "src/report/page", "src/web/look"].flatMap((folder) =>
  readdirSync(join(root, folder))
    // Paper has its own ground.
    .filter((name) => name.endsWith(".css") && name !== "print.css")
    .map((name) => ({ path: name, css: readFileSync(join(root, folder, name), "utf8") })),
);

type Tokens = ReadonlyMap<string, string>;

const tokensOf = (css: string): [string, string][] =>
  [...css.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name = "", value = ""]) => [
    name,
    value,
  ]);
const look = readFileSync(join(root, "src/report/look.css"), "utf8");
const [bright = "", dim = ""] = look.split("@media");
const light: Tokens = new Map(tokensOf(bright));
const looks: readonly (readonly [string, Tokens])[] = [
  ["light", light],
  ["dark", new Map([...light, ...tokensOf(dim)])],
];

/** Relative luminance of "#rrggbb". */
function luminance(colour: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const share = parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one: string, other: string): number {
  const [high = 0, low = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (high + 0.05) / (low + 0.05);
}

/** Where the app and the report put things; the two others are grounds of cautions. */
const grounds = ["page", "sheet", "sunk"];
const allGrounds = [...grounds, "caution-ground", "danger-ground"];

/** Tokens which a property is given anywhere. */
const usedAs = (property: string): string[] => [
  ...new Set(
    sheets.flatMap(({ css }) =>
      [
        ...css.matchAll(new RegExp(`(?:^|[;{\\s])(?:${property}):[^;]*?var\\(--([\\w-]+)\\)`, "g")),
      ].map(([, name = ""]) => name),
    ),
  ),
];

/** Drawn over or beside something that carries the meaning: separators, grids, areas that have an edge, the ground itself. */
const decoration = ["rule", "band", "sunk", "sheet", "page", "caution-ground", "danger-ground"];
/** Only ever on a ground of its own, below. */
const onItsOwn = ["on-accent", "page"];

/** Which of the pairs are too faint, with their ratios. */
const faint = (
  tokens: Tokens,
  names: readonly string[],
  on: readonly string[],
  least: number,
): string[] =>
  names.flatMap((name) =>
    on
      .map(
        (ground) => [ground, contrast(tokens.get(name) ?? "", tokens.get(ground) ?? "")] as const,
      )
      .filter(([, ratio]) => !(ratio >= least))
      .map(([ground, ratio]) => `${name} on ${ground}: ${ratio.toFixed(2)}`),
  );

test("the ratio is the published one", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
  // The darkest grey that the guidelines' own 4.5:1 lets stand on white.
  expect(contrast("#767676", "#ffffff")).toBeGreaterThan(4.5);
  expect(contrast("#777777", "#ffffff")).toBeLessThan(4.5);
});

describe.each(looks)("%s", (_, tokens) => {
  test("text is at least 7:1 on every ground", () => {
    const names = usedAs("color").filter((name) => !onItsOwn.includes(name));
    expect(names).toEqual(expect.arrayContaining(["ink", "ink-2", "accent", "series-5"]));
    expect(faint(tokens, names, allGrounds, 7)).toEqual([]);
    expect(faint(tokens, ["on-accent"], ["accent"], 7)).toEqual([]);
    // A notice stands on the ink.
    expect(faint(tokens, ["page"], ["ink"], 7)).toEqual([]);
  });

  test("marks of charts, borders of controls and the focus are at least 3:1", () => {
    const names = usedAs("fill|stroke|border|border-[\\w-]+|outline|accent-color").filter(
      (name) => !decoration.includes(name) && name !== "on-accent",
    );
    expect(names).toEqual(expect.arrayContaining(["rule-strong", "band-edge", "focus", "within"]));
    expect(faint(tokens, names, grounds, 3)).toEqual([]);
  });

  test("what is drawn over a band is at least 3:1, its numbers 4.5:1", () => {
    const marks = ["within", "outside", "undecided", "band-edge", "series-1", "series-2"];
    expect(faint(tokens, marks, ["band"], 3)).toEqual([]);
    expect(faint(tokens, ["ink", "ink-2"], ["band"], 4.5)).toEqual([]);
  });
});

test("nothing that is read is made faint by opacity", () => {
  const found = sheets.flatMap(({ path, css }) =>
    [...css.matchAll(/([^{}]+)\{[^{}]*[^-]opacity: (0?\.\d+)/g)].map(
      ([, selector = "", value = ""]) => `${path} ${selector.trim()}: ${value}`,
    ),
  );
  expect(found).toEqual([]);
});
