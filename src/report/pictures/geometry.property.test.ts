import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decimate, pathOf, type Point, straightened } from "./decimate.ts";
import { clampedCentre, cut, spread, textWidth } from "./text-room.ts";

const seed = { seed: 20_260_614, numRuns: 300 };

describe("labels that share a line", () => {
  test("never touch when there is room, and keep their order", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -50, max: 250, noNaN: true }), { maxLength: 12 }),
        (wanted) => {
          const placed = spread(wanted, 14, 0, 200);
          const order = wanted.map((at, i) => ({ at, i })).sort((a, b) => a.at - b.at);
          const sorted = order.map(({ i }) => placed[i] ?? Infinity);
          for (let i = 1; i < sorted.length; i++) {
            expect((sorted[i] ?? 0) - (sorted[i - 1] ?? 0)).toBeGreaterThanOrEqual(14 - 1e-9);
          }
          for (const at of placed) expect(at).toBeLessThanOrEqual(200 + 1e-9);
        },
      ),
      seed,
    );
  });

  test("stay between two edges that leave room for them", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        (centre, width) => {
          const at = clampedCentre(centre, width, 0, 300);
          expect(at - width / 2).toBeGreaterThanOrEqual(-1e-9);
          expect(at + width / 2).toBeLessThanOrEqual(300 + 1e-9);
        },
      ),
      seed,
    );
  });

  test("are cut to their room and no shorter than one letter", () => {
    fc.assert(
      fc.property(fc.string(), fc.double({ min: 20, max: 400, noNaN: true }), (text, room) => {
        expect(textWidth(cut(text, 12, room), 12)).toBeLessThanOrEqual(Math.max(room, 12 * 2));
      }),
      seed,
    );
  });
});

describe("a thinned trace", () => {
  const identity = (x: number, y: number): Point => ({ x, y });

  test("keeps every extreme, the first and the last point", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), {
          minLength: 1,
          maxLength: 2_000,
        }),
        (values) => {
          const t = values.map((_, i) => i * 0.2);
          const kept = decimate(t, values, identity).flat();
          const ys = kept.map(({ y }) => y);
          expect(Math.min(...ys)).toBe(Math.min(...values));
          expect(Math.max(...ys)).toBe(Math.max(...values));
          expect(kept[0]?.y).toBe(values[0]);
          expect(kept.at(-1)?.y).toBe(values.at(-1));
          expect(kept.length).toBeLessThanOrEqual(4 * (Math.floor(t.at(-1) ?? 0) + 1));
        },
      ),
      { ...seed, numRuns: 60 },
    );
  });

  test("breaks where nothing was recorded", () => {
    const stretches = decimate([0, 1, 2, 3, 60, 61, 62], [1, 1, 1, 1, 2, 2, 2], identity);
    expect(stretches.map((points) => points.length)).toEqual([4, 3]);
    expect(pathOf(stretches).match(/M/g)).toHaveLength(2);
  });

  test("refuses columns of different lengths: the caller's bug", () => {
    expect(() => decimate([0, 1], [1], identity)).toThrow(RangeError);
  });

  test("of nothing is nothing", () => {
    expect(pathOf(decimate([], [], identity))).toBe("");
  });
});

test("a straightened line passes every point that it leaves out within a pixel", () => {
  const heights = fc.array(fc.double({ min: 0, max: 300, noNaN: true }), {
    minLength: 2,
    maxLength: 60,
  });
  fc.assert(
    fc.property(heights, (ys) => {
      const points = ys.map((y, x) => ({ x, y }));
      const kept = straightened(points);
      expect(kept[0]).toEqual(points[0]);
      expect(kept.at(-1)).toEqual(points.at(-1));
      for (const { x, y } of points) {
        const after = kept.findIndex((one) => one.x >= x);
        const [a, b] = [kept[Math.max(0, after - 1)], kept[after]];
        if (!a || !b) throw new Error("outside of the line");
        const on = b.x === a.x ? b.y : a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
        expect(Math.abs(on - y)).toBeLessThan(1);
      }
    }),
    { seed: 8123 },
  );
});
