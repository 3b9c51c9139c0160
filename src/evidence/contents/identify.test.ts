import { expect, test } from "vitest";
import { surveyCans } from "../../../test/contents/survey.ts";
import { calibrationError, reliabilityTable } from "../../inference/index.ts";
import type { Evidence } from "./evidence.ts";
import { families } from "./families.ts";
import { identify } from "./identify.ts";

/** Fewer points than an answer uses: this only shows that the machinery of the campaign works. */
const QUICK = { seed: 1, points: 300, passes: 1 } as const;

/** Static pressures from facts E of an equation-of-state library (CoolProp 8.0.0), 25 °C, bar. */
const P25 = { R134a: 6.654, R1234yf: 6.827, "HC 60/40": 7.312 } as const;

const pressure = (bar: number, T: number, u = 0.08): Evidence => ({
  kind: "pressure",
  p: bar * 1e5,
  u: u * 1e5,
  T,
  uT: 0.6,
  vessel: "can",
  gauge: "g",
  thermometer: "t",
});
const density = (rho: number): Evidence => ({
  kind: "liquid-density",
  rho,
  u: 0.015 * rho,
  T: 298.15,
});

test("two pressures of R134a: it leads, and what pressure cannot tell apart is named", () => {
  // 2.928 bar at 0 °C: saturation of R134a, ASHRAE Handbook Fundamentals, chapter 30 (from memory).
  const found = identify([pressure(P25.R134a, 298.15), pressure(2.928, 273.15)]);
  expect(found.families[0]?.id).toBe("R134a");
  expect(found.indistinguishable.families).toContain("R134a+R1234yf");
  expect(found.indistinguishable.says).toContain("Static pressure alone cannot tell apart");
});

test("mass and volume of the full can tell hydrocarbons from R134a at the same pressure", () => {
  const alone = identify([pressure(P25["HC 60/40"], 298.15)]);
  expect(alone.indistinguishable.families.length).toBeGreaterThan(3);
  const full: Evidence = {
    kind: "fill",
    vessel: "can",
    mass: 0.17,
    uMass: 0.003,
    volume: 0.44e-3,
    uVolume: 0.006e-3,
    full: true,
  };
  const found = identify([pressure(P25["HC 60/40"], 298.15), full]);
  const kinds = found.families.filter(({ kind }) => kind === "hydrocarbons" || kind === "blend");
  expect(kinds.reduce((sum, { probability }) => sum + probability, 0)).toBeGreaterThan(0.9);
  const share = (fluid: string) => found.overall.find((part) => part.fluid === fluid);
  expect(share("R290")?.from).toBeLessThan(0.6);
  expect(share("R290")?.to).toBeGreaterThan(0.6);
  expect(share("R134a")).toBeUndefined();
});

test("readings of no known fluid are said to be unexplained, and treated as the worst", () => {
  const found = identify([pressure(7, 298.15), pressure(6.9, 273.15)]);
  expect(found.verdict).toBe("none-explains");
  expect(found.families[0]?.id).toBe("none");
  expect(found.hazards.map(({ kind }) => kind)).toContain("unknown");
});

test("a still probable counterfeit brings the caution of aluminium", () => {
  const found = identify([pressure(5.7, 298.15), density(916)]);
  expect(found.families.slice(0, 3).map(({ id }) => id)).toContain("R40");
  expect(found.hazards[0]?.kind).toBe("attacks-aluminium");
});

test("a label moves the prior and is outweighed by readings", () => {
  const label: Evidence = { kind: "label", declares: "R134a" };
  const believed = identify([label]);
  expect(believed.families[0]?.probability).toBeGreaterThan(0.5);
  const refuted = identify([label, pressure(P25["HC 60/40"], 298.15), density(516)]);
  expect(refuted.families.find(({ id }) => id === "R134a")).toBeUndefined();
  const said = refuted.contributions.map(({ logRatio }) => logRatio);
  // The density alone: over four to one for hydrocarbons beside the pressure.
  expect(said[2]).toBeGreaterThan(Math.log(4));
});

test("detectors and identifiers weigh, with their errors", () => {
  const two = [pressure(P25.R134a, 298.15), pressure(2.928, 273.15)];
  const quiet = identify([...two, { kind: "detector", detects: "halogen", responded: false }]);
  const loud = identify([...two, { kind: "detector", detects: "halogen", responded: true }]);
  const of = (found: typeof quiet) => found.families.find(({ id }) => id === "R134a")?.probability;
  expect(of(loud)).toBeGreaterThan(of(quiet) ?? 1);
  const mixed = identify([
    {
      kind: "identifier",
      parts: [
        { substance: "R134a", fraction: 0.8 },
        { substance: "R22", fraction: 0.2 },
      ],
    },
  ]);
  expect(mixed.families[0]?.id).toBe("R134a+R22");
  const r22 = mixed.compositions[0]?.parts.find(({ fluid }) => fluid === "R22");
  expect(r22?.from).toBeLessThan(0.2);
  expect(r22?.to).toBeGreaterThan(0.2);
});

test("the next measurement is none that releases or burns anything, cheap ones first", () => {
  const { next } = identify([pressure(P25.R134a, 298.15)]);
  expect(next.length).toBeGreaterThan(3);
  for (const each of next) {
    expect(each.says).not.toMatch(/boil|vent it|light it/iu);
    expect(each.information).toBeGreaterThan(0);
    expect(each.share).toBeLessThanOrEqual(1);
  }
  const perHour = next.map((each) => each.perHour);
  expect(perHour).toEqual([...perHour].sort((a, b) => b - a));
});

test("the same evidence, prior and seed give the same answer, in less than two seconds", () => {
  const evidence = [pressure(6.9, 298.15), pressure(3.0, 273.15), density(1100)];
  // Time of the processor, not of the clock: other tests share the machine.
  const start = process.cpuUsage();
  const first = identify(evidence, { seed: 5 });
  const { user, system } = process.cpuUsage(start);
  expect((user + system) / 1e6).toBeLessThan(2);
  expect(identify(evidence, { seed: 5 })).toEqual(first);
  const other = identify(evidence, { seed: 6 }).families[0];
  expect(Math.abs((other?.probability ?? 0) - (first.families[0]?.probability ?? 0))).toBeLessThan(
    0.03,
  );
  const told = identify(evidence, { prior: Object.fromEntries(families.map(({ id }) => [id, 0])) });
  expect(told.families.map(({ id }) => id)).toEqual(["none"]);
});

test("five hidden cans: stated probabilities are near what comes true", () => {
  const { forecasts, rightOfSeparable, separable } = surveyCans(5, 7, true, QUICK);
  const table = reliabilityTable(forecasts, [0, 0.05, 0.5, 1]);
  expect(calibrationError(table)).toBeLessThan(0.03);
  expect(separable - rightOfSeparable).toBeLessThanOrEqual(1);
});
