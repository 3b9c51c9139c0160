import { render } from "preact-render-to-string";
import { describe, expect, test } from "vitest";
import { shownIn } from "../shown.ts";
import { bandLook } from "./band-look.ts";
import { BandScale, type BandScaleProps, bandTable } from "./band-scale.tsx";

const base: BandScaleProps = { id: "b", title: "Low side", shown: shownIn("kPa"), width: 358 };
const band = { from: 3e5, to: 4e5, expected: 3.5e5 };

const numbersIn = (html: string, attribute: string): number[] =>
  [...html.matchAll(new RegExp(` ${attribute}="([-\\d.]+)"`, "g"))].map(([, n]) => Number(n));

describe("the reading against its band", () => {
  test("has a name, a description and no style attribute", () => {
    const html = render(
      <BandScale
        {...base}
        band={band}
        reading={{ value: 3.4e5, u: 2e3 }}
        verdict={{ kind: "within", word: "in band" }}
      />,
    );
    expect(html).toMatch(/role="img" aria-labelledby="b-title b-desc"/);
    expect(html).toContain('<title id="b-title">Low side: in band</title>');
    expect(html).toMatch(/<desc id="b-desc">Reading 340/);
    expect(html).not.toContain("style=");
  });

  test("says the verdict as word and shape, not by colour alone", () => {
    const marks = (["within", "higher", "lower", "undecided"] as const).map((kind) => {
      const html = render(
        <BandScale
          {...base}
          band={band}
          reading={{ value: 5e5, u: 2e3 }}
          verdict={{ kind, word: `word ${kind}` }}
        />,
      );
      expect(html).toContain(`word ${kind}`);
      return /class="pic-mark [^"]*" d="([^"]+)"/.exec(html)?.[1];
    });
    expect(new Set(marks).size).toBe(4);
  });

  test("before the reading shows the band alone, and says so", () => {
    const html = render(<BandScale {...base} band={band} />);
    expect(html).toContain("not read yet");
    expect(html).toContain("pic-band-block");
    expect(html).not.toContain("pic-mark");
  });

  test("without band or reading draws nothing and still says so", () => {
    expect(render(<BandScale {...base} />)).not.toContain('<svg class="pic-drawing"');
  });

  test.each([
    ["far above", 5e6],
    ["far below", 10],
    ["at the edge", 4e5],
  ])("keeps a reading %s inside the picture", (_, value) => {
    const html = render(<BandScale {...base} band={band} reading={{ value, u: 1e3 }} />);
    for (const x of [...numbersIn(html, "x"), ...numbersIn(html, "x1"), ...numbersIn(html, "x2")]) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(358);
    }
    expect(Math.min(...numbersIn(html, "font-size"))).toBeGreaterThanOrEqual(12);
    expect(html).not.toMatch(/NaN|Infinity|undefined/);
  });

  test("a vacuum gauge that counts down still has the higher pressure on the right", () => {
    const html = render(
      <BandScale
        {...base}
        shown={shownIn("inHg(vac)", 101_325)}
        band={{ from: 3_000, to: 9_000 }}
        reading={{ value: 50_000, u: 100 }}
      />,
    );
    const mark = Number(/class="pic-mark[^>]*translate\(([\d.]+)/.exec(html)?.[1]);
    const block = Number(/class="pic-band-block" x="([\d.]+)"/.exec(html)?.[1]);
    expect(mark).toBeGreaterThan(block);
  });

  test("a vacuum far inside its band stands apart from it, between ticks that practice knows", () => {
    const html = render(
      <BandScale
        {...base}
        {...bandLook("vacuum")}
        shown={shownIn("micron")}
        band={{ from: 0, to: 2985 }}
        reading={{ value: 50.7, u: 3 }}
      />,
    );
    expect(html).toContain("Water boils below");
    for (const tick of ["500", "1000"]) expect(html).toContain(`>${tick}</text>`);
    const mark = Number(/class="pic-mark[^>]*translate\(([\d.]+)/.exec(html)?.[1]);
    const [, from, wide] = /class="pic-band-block" x="([\d.]+)"[^>]* width="([\d.]+)"/
      .exec(html)
      ?.map(Number) ?? [NaN, NaN, NaN];
    expect(from).toBe(0);
    expect(mark).toBeGreaterThan(30);
    expect(mark).toBeLessThan((wide ?? 0) / 2);
  });

  test("a vacuum of nothing stands at the end of the scale", () => {
    const html = render(
      <BandScale
        {...base}
        {...bandLook("vacuum")}
        shown={shownIn("micron")}
        band={{ from: 0, to: 2985 }}
        reading={{ value: 0, u: 5 }}
      />,
    );
    expect(html).not.toMatch(/NaN|Infinity/);
  });

  test("has its numbers as a table", () => {
    const { rows } = bandTable({ ...base, band });
    expect(rows.map(([name]) => name)).toEqual(["Reading", "Band", "Expected", "Verdict"]);
  });
});
