import { expect, test } from "vitest";
import { throughPoints } from "./index.ts";

test("a plane is met everywhere, also beyond its points", () => {
  const plane = ([x = 0, y = 0]: readonly number[]) => [3 + 2 * x - y, x + y];
  const points = [
    [0, 0],
    [0.3, 0.1],
    [0.1, 0.4],
    [0.5, 0.5],
  ];
  const at = throughPoints(points, points.map(plane), 0.2);
  for (const x of [...points, [0.25, 0.25], [0.8, 0.2]]) {
    for (const [c, value] of plane(x).entries()) expect(at(x)[c]).toBeCloseTo(value, 2);
  }
});

test("a bend is met at its points; one point is a level", () => {
  const points = [[0], [0.25], [0.5], [0.75], [1]];
  const bent = ([x = 0]: readonly number[]) => [x * x];
  const at = throughPoints(points, points.map(bent), 0.4);
  for (const x of points) expect(at(x)[0]).toBeCloseTo(bent(x)[0] ?? 0, 4);
  expect(at([0.6])[0]).toBeCloseTo(0.36, 2);
  expect(throughPoints([[0.2]], [[7]], 0.3)([0.2])[0]).toBeCloseTo(7, 9);
});
