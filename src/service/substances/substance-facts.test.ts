import { describe, expect, test } from "vitest";
import { fluidIds, fluidInfo, namedBlends } from "../../fluids/index.ts";
import { upperOf, usable } from "./fact.ts";
import { massPerVolume } from "./le-chatelier.ts";
import { ratedBlends } from "./named-blends.ts";
import { type Concentration, type SubstanceFacts, substanceFacts } from "./substance-facts.ts";

const all = fluidIds.map(substanceFacts);
const PPM = 1e-6;
/** ASHRAE 34 lists two significant digits. */
const TWO_DIGITS = 0.05;

const figure = (facts: SubstanceFacts, { volume, mass }: Concentration) => ({
  ppm: volume ? upperOf(volume.value) : NaN,
  listed: upperOf(mass.value),
  converted: massPerVolume(volume ? upperOf(volume.value) * PPM : NaN, fluidInfo(facts.fluid).M),
});

describe("the file", () => {
  test("has every fluid once, with its family", () => {
    expect(new Set(all.map(({ fluid }) => fluid)).size).toBe(fluidIds.length);
  });

  // ASHRAE 34: class 1 has no lower limit, every other class has one (clause 6.1.3).
  test("class 1 has no lower limit, the others have one", () => {
    for (const facts of all) {
      const safety = usable(facts.class)?.value;
      if (safety === undefined) expect(facts.lfl, facts.fluid).toBeUndefined();
      else expect(facts.lfl === undefined, facts.fluid).toBe(safety.endsWith("1"));
    }
  });

  // ASHRAE 34 clause 6.1.3: class 3 burns from 0.10 kg/m3 or less, or gives 19 MJ/kg or more.
  test("class 3 is below 0.10 kg/m3, and only class 3", () => {
    for (const { fluid, class: safety, lfl } of all) {
      const limit = lfl?.ashrae ?? lfl?.other;
      if (!safety || !limit) continue;
      expect(upperOf(limit.mass.value) <= 0.1, fluid).toBe(safety.value.endsWith("3"));
    }
  });
});

// ASHRAE 34 clause 7: kg/m3 = ppm·M/24.465, and the limit of a room is the least of three. A typing error breaks one.
describe("consistency", () => {
  test("ppm and kg/m3 agree", () => {
    for (const facts of all) {
      for (const entry of [facts.lfl?.ashrae, facts.lfl?.other, facts.rcl]) {
        if (!entry) continue;
        const { listed, converted } = figure(facts, entry);
        // The pentanes' RCL of 2.9 g/m3 is 1.7 % below 1000 ppm, R124's 56 g/m3 (10 000 ppm) is 0.3 %.
        expect(Math.abs(listed / converted - 1), facts.fluid).toBeLessThan(TWO_DIGITS);
      }
    }
  });

  test("RCL = min(ATEL, 140 000 ppm, LFL/4)", () => {
    let counted = 0;
    for (const facts of all) {
      const { rcl, atel, lfl } = facts;
      const toxic = usable(atel);
      if (!rcl || !usable(rcl.mass) || !toxic) continue;
      counted++;
      const quarter = lfl?.ashrae?.volume ? upperOf(lfl.ashrae.volume.value) / 4 : Infinity;
      const least = Math.min(upperOf(toxic.value), 140_000, quarter);
      expect(Math.abs(figure(facts, rcl).ppm / least - 1), facts.fluid).toBeLessThan(TWO_DIGITS);
    }
    expect(counted).toBeGreaterThanOrEqual(17);
  });

  test("a shaky fact is not usable", () => {
    expect(usable(substanceFacts("R13I1").atel)).toBeUndefined();
    expect(usable(substanceFacts("R227ea").atel)).toBeUndefined();
    expect(usable(substanceFacts("R1132(E)").class)).toBeUndefined();
    expect(usable(substanceFacts("R134a").atel)?.value).toBe(50_000);
  });
});

describe("named blends", () => {
  test("are all those of the fluids, and their classes agree", () => {
    for (const { name, safetyClass } of namedBlends) {
      const rated = ratedBlends.find(({ blend }) => blend === name);
      expect(rated?.class?.value ?? null, name).toBe(safetyClass);
    }
    expect(ratedBlends.length).toBe(namedBlends.length);
  });

  test("have distinct names and make a whole of 2 to 8 fluids", () => {
    expect(new Set(ratedBlends.map(({ blend }) => blend)).size).toBe(ratedBlends.length);
    for (const { parts, blend } of ratedBlends) {
      const sum = parts.reduce((total, { fraction }) => total + fraction, 0);
      expect(Math.abs(sum - 1), blend).toBeLessThan(1e-12);
      expect(parts.length >= 2 && parts.length <= 8, blend).toBe(true);
    }
  });

  test("name their sources in full", () => {
    for (const { composition, class: safety, blend } of ratedBlends) {
      expect(composition.source.length, blend).toBeGreaterThan(20);
      if (safety) expect(safety.source.length, blend).toBeGreaterThan(20);
    }
  });
});
