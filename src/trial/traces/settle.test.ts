import { expect, test } from "vitest";
import { createRandom, normal, type Random } from "../../numerics/index.ts";
import { settle } from "./settle.ts";

interface Truth {
  readonly end: number;
  readonly amplitude: number;
  readonly tau: number;
  readonly phi: number;
  readonly sd: number;
  readonly seconds: number;
}

function simulate({ end, amplitude, tau, phi, sd, seconds }: Truth, random: Random) {
  const t = Float64Array.from({ length: seconds }, (_, i) => i);
  let noise = sd * normal(random);
  const y = t.map((x) => {
    noise = phi * noise + sd * Math.sqrt(1 - phi * phi) * normal(random);
    return end + amplitude * Math.exp(-x / tau) + noise;
  });
  return { t, y };
}

/** Share of simulated records whose 95 % interval holds the truth, with the sizes behind it. */
function coverage(truth: Truth, repeats: number) {
  const random = createRandom(20260614 + truth.tau + 1000 * truth.phi);
  let [inside, ends, endInside, squares, u] = [0, 0, 0, 0, 0];
  for (let k = 0; k < repeats; k++) {
    const { t, y } = simulate(truth, random);
    const s = settle(t, y, { slopeLimit: 0.1 / 60, mayCycle: true });
    if (s.kind !== "settled" && s.kind !== "still-moving") throw new Error(`came out ${s.kind}`);
    const error = s.value - truth.end;
    if (Math.abs(error) <= 2 * s.u) inside++;
    squares += error ** 2;
    u += s.u;
    if (!s.end) continue;
    ends++;
    if (Math.abs(s.end.value - truth.end) <= 2 * s.end.u) endInside++;
  }
  const share = inside / repeats;
  const ofEnds = ends === 0 ? 1 : endInside / ends;
  return { share, ofEnds, rms: Math.sqrt(squares / repeats), u: u / repeats };
}

const repeats = 300;
const noise = [0, 0.5, 0.8, 0.9] as const;
const plain = { end: 280, sd: 0.4, seconds: 780 };

// Known truth: an exponential approach of 20 K with AR(1) noise of 0.4 K, 13 minutes at 1 Hz.
test.each(noise.flatMap((phi) => [30, 90, 150].map((tau) => [phi, tau] as const)))(
  "95 % intervals hold the truth: phi %f, tau %f s",
  (phi, tau) => {
    const { share, ofEnds, rms, u } = coverage({ ...plain, amplitude: 20, phi, tau }, repeats);
    expect(share).toBeGreaterThanOrEqual(0.92);
    expect(ofEnds).toBeGreaterThanOrEqual(0.9);
    // Not bought by intervals too wide to use, unless most of the approach is still in the window.
    if (tau < 150) expect(u).toBeLessThan(1.5 * rms);
    else expect(u).toBeLessThan(0.3);
  },
);

test.each(noise)("intervals of 95 % hold the truth where nothing moves, phi %f", (phi) => {
  const { share, rms, u } = coverage({ ...plain, amplitude: 0, phi, tau: 90 }, repeats);
  expect(share).toBeGreaterThanOrEqual(0.92);
  expect(u).toBeLessThan(1.6 * rms);
});

const seconds = (n: number) => Float64Array.from({ length: n }, (_, i) => i);

test("a slope beyond the limit is still moving, and its end is told", () => {
  const t = seconds(600);
  const y = t.map((x) => 7 + 20 * Math.exp(-x / 250));
  const s = settle(t, y, { slopeLimit: 0.1 / 60 });
  expect(s).toMatchObject({ kind: "still-moving" });
  if (s.kind === "still-moving") {
    expect(s.end?.value).toBeCloseTo(7, 3);
    expect(s.end?.tau).toBeCloseTo(250, 0);
    expect(Math.abs(s.value - 7)).toBeLessThan(2 * s.u);
  }
});

test("less than five minutes is too short, five minutes at 1 Hz is enough", () => {
  expect(settle(seconds(299), seconds(299))).toMatchObject({ kind: "too-short", n: 299 });
  expect(settle(seconds(300), seconds(300).fill(1))).toMatchObject({ kind: "settled", value: 1 });
  expect(settle(new Float64Array(), new Float64Array())).toMatchObject({ kind: "too-short", n: 0 });
  // Ten samples over ten minutes span the time but carry too little.
  const sparse = Float64Array.from({ length: 10 }, (_, i) => 60 * i);
  expect(settle(sparse, sparse.slice().fill(2)).kind).toBe("too-short");
});

test("unequal lengths are a defect", () => {
  expect(() => settle(seconds(3), seconds(4))).toThrow(RangeError);
});

test("a cycling clutch gives its lowest and highest, not a mean", () => {
  const random = createRandom(11);
  // 23 to 45 psig: falls for 20 s while engaged, rises for 12 s while released.
  const t = seconds(600);
  const y = t.map((x) => {
    const phase = x % 32;
    const swing = phase < 20 ? 45 - (22 * phase) / 20 : 23 + (22 * (phase - 20)) / 12;
    return swing + 0.4 * normal(random);
  });
  const s = settle(t, y, { mayCycle: true });
  expect(s.kind).toBe("cycling");
  if (s.kind !== "cycling") return;
  expect(Math.abs(s.lowest.value - 23)).toBeLessThan(1.5);
  expect(Math.abs(s.highest.value - 45)).toBeLessThan(1.5);
  expect(s.period).toBeCloseTo(32, 0);
  expect(s.cycles).toBeGreaterThanOrEqual(7);
});
