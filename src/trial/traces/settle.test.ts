import { expect, test } from "vitest";
import { settle } from "./settle.ts";

/** Seeded uniform numbers (mulberry32, public domain) and normal ones by Box–Muller. */
function normals(seed: number): () => number {
  let s = seed >>> 0;
  const uniform = () => {
    s = (s + 0x6d2b79f5) >>> 0;
    let x = Math.imul(s ^ (s >>> 15), 1 | s);
    x = (x + Math.imul(x ^ (x >>> 7), 61 | x)) ^ x;
    return ((x ^ (x >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

interface Truth {
  readonly end: number;
  readonly amplitude: number;
  readonly tau: number;
  readonly phi: number;
  readonly sd: number;
  readonly seconds: number;
}

function simulate({ end, amplitude, tau, phi, sd, seconds }: Truth, normal: () => number) {
  const t = Float64Array.from({ length: seconds }, (_, i) => i);
  let noise = sd * normal();
  const y = t.map((x) => {
    noise = phi * noise + sd * Math.sqrt(1 - phi * phi) * normal();
    return end + amplitude * Math.exp(-x / tau) + noise;
  });
  return { t, y };
}

const repeats = 400;
const cases = [0, 0.5, 0.8, 0.9].flatMap((phi) =>
  [30, 90, 150].map((tau) => ({ end: 280, amplitude: 20, tau, phi, sd: 0.4, seconds: 780 })),
);

test("95 % intervals hold the truth about 95 times in 100", () => {
  const table: string[] = [];
  let [all, held] = [0, 0];
  for (const truth of cases) {
    const normal = normals(20260614 + truth.tau + 1000 * truth.phi);
    let [inside, error, u, ends] = [0, 0, 0, 0];
    for (let k = 0; k < repeats; k++) {
      const { t, y } = simulate(truth, normal);
      const s = settle(t, y, { slopeLimit: 0.1 / 60 });
      if (s.kind !== "settled" && s.kind !== "still-moving") throw new Error(s.kind);
      if (Math.abs(s.value - truth.end) <= 2 * s.u) inside++;
      if (s.end && Math.abs(s.end.value - truth.end) <= 2 * s.end.u) ends++;
      error += (s.value - truth.end) ** 2;
      u += s.u;
    }
    const coverage = inside / repeats;
    all += repeats;
    held += inside;
    table.push(
      `phi ${truth.phi} tau ${truth.tau}: ${(100 * coverage).toFixed(1)} % rms ${Math.sqrt(error / repeats).toFixed(3)} u ${(u / repeats).toFixed(3)} end ${((100 * ends) / repeats).toFixed(1)}`,
    );
    expect(coverage, table.at(-1)).toBeGreaterThan(0.9);
  }
  console.log(table.join("\n"), held / all);
});
