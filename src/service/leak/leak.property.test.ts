import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type AirZones, layeredAir, stirredAir } from "./air-zones.ts";
import { concentrationAt, massInside } from "./concentration.ts";
import { exposureOf } from "./exposure.ts";
import {
  type Release,
  releaseAtOnce,
  releasedUntil,
  releaseEnd,
  releaseThroughHole,
  steadyRelease,
} from "./release.ts";

const seed = 4711;
const log = (from: number, to: number) =>
  fc.double({ min: Math.log(from), max: Math.log(to), noNaN: true }).map(Math.exp);
const maybe = (arbitrary: fc.Arbitrary<number>) =>
  fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 4, arbitrary });

const volume = log(0.2, 10);
const mass = log(0.02, 2);
const layered = fc
  .tuple(
    volume,
    fc.double({ min: 0.02, max: 0.9, noNaN: true }),
    maybe(log(1e-5, 0.1)),
    maybe(log(1e-5, 0.1)),
  )
  .map(([all, part, exchange, freshAir]) => ({
    volume: all,
    layerVolume: part * all,
    exchange,
    freshAir,
  }));
const release: fc.Arbitrary<Release> = fc.oneof(
  mass.map(releaseAtOnce),
  fc.tuple(mass, log(1e-5, 0.1)).map(([m, rate]) => steadyRelease(m, rate)),
  fc
    .tuple(mass, log(1e-4, 0.1), log(0.05, 1), log(0.01, 0.2))
    .map(([m, rate, slower, vapourFull]) =>
      releaseThroughHole(m, {
        rate,
        vapourRate: slower * rate,
        vapourFull,
        stays: vapourFull / 8,
      }),
    ),
);

/** Rates of change of both zones' mass, kg/s, from the differential equations alone. */
function slopes(
  space: Parameters<typeof layeredAir>[0],
  flow: Release,
  t: number,
  m: readonly number[],
) {
  const [m1 = 0, m2 = 0] = m;
  const c1 = m1 / space.layerVolume;
  const c2 = m2 / (space.volume - space.layerVolume);
  const part = flow.parts.find(({ from, to }) => t >= from && t < to);
  const rate = part ? part.rate * Math.exp(-part.decay * (t - part.from)) : 0;
  return [
    rate + space.exchange * (c2 - c1),
    space.exchange * (c1 - c2) - space.freshAir * c2,
    space.freshAir * c2,
  ];
}

/** Layer, air above and what left with the air, kg, by the classical Runge–Kutta method. */
function integrated(
  space: Parameters<typeof layeredAir>[0],
  flow: Release,
  until: number,
  steps: number,
) {
  let m = [flow.atOnce, 0, 0];
  const h = until / steps;
  const plus = (k: readonly number[], by: number) => m.map((each, i) => each + by * (k[i] ?? 0));
  for (let i = 0; i < steps; i++) {
    const t = i * h;
    const k1 = slopes(space, flow, t, m);
    const k2 = slopes(space, flow, t + h / 2, plus(k1, h / 2));
    const k3 = slopes(space, flow, t + h / 2, plus(k2, h / 2));
    const k4 = slopes(space, flow, t + h - 1e-9 * h, plus(k3, h));
    m = m.map(
      (each, n) =>
        each + (h / 6) * ((k1[n] ?? 0) + 2 * (k2[n] ?? 0) + 2 * (k3[n] ?? 0) + (k4[n] ?? 0)),
    );
  }
  return m;
}

describe("two zones", () => {
  test("the closed form is what the equations integrate to, and mass is conserved", () => {
    fc.assert(
      fc.property(layered, mass, log(1e-4, 0.05), log(30, 3000), (space, m, rate, until) => {
        const flow = steadyRelease(m, rate);
        // Whole steps in each part: the method then sees no corner inside a step.
        const end = Math.min(until, releaseEnd(flow));
        const [layer = 0, above = 0, left = 0] = integrated(space, flow, end, 4000);
        const zones = layeredAir(space);
        const released = releasedUntil(flow, end);
        expect(
          Math.abs(layer / space.layerVolume - concentrationAt(zones.source, flow, end)),
        ).toBeLessThan(1e-6 * (released / space.layerVolume));
        const other = space.volume - space.layerVolume;
        expect(Math.abs(above / other - concentrationAt(zones.rest, flow, end))).toBeLessThan(
          1e-6 * (released / other),
        );
        // What is in the air and what left with it is what came out.
        expect(Math.abs((massInside(zones, flow, end) + left) / released - 1)).toBeLessThan(1e-6);
      }),
      { seed, numRuns: 60 },
    );
  });

  test("without fresh air nothing is lost, whatever the release", () => {
    fc.assert(
      fc.property(layered, release, log(1, 1e5), (space, flow, t) => {
        const zones = layeredAir({ ...space, freshAir: 0 });
        expect(Math.abs(massInside(zones, flow, t) / releasedUntil(flow, t) - 1)).toBeLessThan(
          1e-9,
        );
        const stirred = stirredAir(space.volume, 0);
        expect(Math.abs(massInside(stirred, flow, t) / releasedUntil(flow, t) - 1)).toBeLessThan(
          1e-9,
        );
      }),
      { seed, numRuns: 500 },
    );
  });

  test("a very quick exchange is stirred air", () => {
    fc.assert(
      fc.property(layered, release, log(10, 1e4), (space, flow, t) => {
        const quick = layeredAir({ ...space, exchange: 1e4 * space.volume });
        const stirred = stirredAir(space.volume, space.freshAir / space.volume);
        const even = concentrationAt(stirred.source, flow, t);
        const scale = releasedUntil(flow, t) / space.volume;
        for (const modes of [quick.source, quick.rest]) {
          expect(Math.abs(concentrationAt(modes, flow, t) - even)).toBeLessThan(2e-3 * scale);
        }
      }),
      { seed, numRuns: 300 },
    );
  });

  test("no exchange keeps all of it in the layer", () => {
    const zones = layeredAir({ volume: 3, layerVolume: 0.8, exchange: 0, freshAir: 0.02 });
    expect(concentrationAt(zones.source, releaseAtOnce(0.3), 1e6)).toBeCloseTo(0.3 / 0.8, 12);
    expect(concentrationAt(zones.rest, releaseAtOnce(0.3), 1e6)).toBe(0);
  });
});

describe("stirred air", () => {
  test("a steady leak follows (ṁ/aV)(1 − e^(−at)) to its limit, and decays behind it", () => {
    fc.assert(
      fc.property(volume, log(1e-5, 0.02), mass, log(1e-5, 0.05), (V, a, m, rate) => {
        const flow = steadyRelease(m, rate);
        const { source } = stirredAir(V, a);
        const end = m / rate;
        for (const t of [0.3 * end, end]) {
          const expected = (rate / (a * V)) * (1 - Math.exp(-a * t));
          expect(Math.abs(concentrationAt(source, flow, t) / expected - 1)).toBeLessThan(1e-9);
        }
        const top = (m / (end * a * V)) * (1 - Math.exp(-a * end));
        const later = concentrationAt(source, flow, end + 60);
        expect(Math.abs(later / (top * Math.exp(-a * 60)) - 1)).toBeLessThan(1e-9);
        expect(Math.abs(exposureOf(source, flow, [1]).peak / top - 1)).toBeLessThan(1e-9);
      }),
      { seed, numRuns: 300 },
    );
  });
});

/** The same by looking at very many moments. */
function bySearch(zones: AirZones, flow: Release, level: number, until: number) {
  const count = 40_000;
  const at = Array.from({ length: count + 1 }, (_, i) =>
    concentrationAt(zones.source, flow, (until * i) / count),
  );
  return {
    peak: Math.max(...at),
    above: (at.filter((each) => each > level).length / count) * until,
  };
}

test("peak and time above a level, against a search of forty thousand moments", () => {
  fc.assert(
    fc.property(
      layered,
      release,
      fc.double({ min: 0.05, max: 0.95, noNaN: true }),
      (space, flow, part) => {
        const zones = layeredAir({
          ...space,
          exchange: space.exchange + 1e-4,
          freshAir: space.freshAir + 1e-3,
        });
        const level = part * exposureOf(zones.source, flow, [1]).peak;
        const found = exposureOf(zones.source, flow, [level]);
        const [above, until] = [found.above[0] ?? NaN, found.until[0] ?? NaN];
        expect(until).toBeGreaterThan(0);
        const searched = bySearch(zones, flow, level, 1.1 * until);
        expect(found.peak).toBeGreaterThanOrEqual(searched.peak * (1 - 1e-9));
        expect(searched.peak).toBeGreaterThan(found.peak * 0.995);
        expect(Math.abs(above - searched.above)).toBeLessThan(1e-3 * until + 1e-6);
      },
    ),
    { seed, numRuns: 60 },
  );
});

test("a hole lets out all but what stays at the pressure of the air", () => {
  fc.assert(
    fc.property(mass, log(1e-4, 0.1), log(0.01, 0.2), (m, rate, vapourFull) => {
      const flow = releaseThroughHole(m, {
        rate,
        vapourRate: rate / 10,
        vapourFull,
        stays: vapourFull / 8,
      });
      const out = releasedUntil(flow, releaseEnd(flow) + 1);
      expect(out).toBeLessThanOrEqual(m * (1 + 1e-12));
      expect(Math.abs(m - out - Math.min(m, vapourFull / 8))).toBeLessThan(1e-12 + 1e-9 * m);
    }),
    { seed, numRuns: 300 },
  );
});
