import { describe, expect, test } from "vitest";
import { createRandom } from "./random.ts";
import { solveLinear } from "./solve-linear.ts";

describe("solveLinear", () => {
  test("solves a system that needs its rows exchanged", () => {
    const right = Float64Array.of(2, 7, 11);
    // 0x + y + 0z = 2, x + y + z = 7, 2x + 0y + z = 11: worked by hand, x = 6, y = 2, z = −1.
    const solved = solveLinear(3, Float64Array.of(0, 1, 0, 1, 1, 1, 2, 0, 1), right);
    expect(solved).toBe(true);
    expect(Array.from(right)).toEqual([6, 2, -1]);
  });

  test("multiplied back, random systems give their right side", () => {
    const random = createRandom(8);
    for (let n = 1; n <= 11; n++) {
      const matrix = Float64Array.from({ length: n * n }, () => random() - 0.5);
      const wanted = Float64Array.from({ length: n }, () => random() - 0.5);
      const right = wanted.map((_, i) =>
        wanted.reduce((sum, x, j) => sum + (matrix[i * n + j] ?? 0) * x, 0),
      );
      expect(solveLinear(n, matrix, right)).toBe(true);
      for (const [i, x] of wanted.entries()) expect(right[i]).toBeCloseTo(x, 9);
    }
  });

  test("says so if a row is zero", () => {
    expect(solveLinear(2, Float64Array.of(1, 2, 0, 0), Float64Array.of(1, 1))).toBe(false);
  });
});
