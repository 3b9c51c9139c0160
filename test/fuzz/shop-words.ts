// What the inputs of a shop's day are made of: numbers over whole ranges, texts with units, vehicles and runs.
import fc from "fast-check";
import { fluidIds } from "../../src/fluids/index.ts";
import { ratedBlends } from "../../src/service/index.ts";

export const span = (min: number, max: number) => fc.double({ min, max, noNaN: true });
export const log = (min: number, max: number) => span(Math.log(min), Math.log(max)).map(Math.exp);
export const text = (of: fc.Arbitrary<number>, unit: string) =>
  of.map((x) => `${x.toFixed(2)} ${unit}`);
export const celsius = text(span(-60, 120), "°C");
export const shopAir = text(span(10, 45), "°C");
export const psig = text(span(-14, 600), "psig");
export const micron = text(log(1, 1e6), "micron");
export const gauge = fc.constantFrom(
  "85 psi",
  "3-2-3 of 120 psi",
  "1.6 % of 35 bar",
  "10 % of reading",
);
export const thermometer = fc.constantFrom("1 K", "0.1 K", "1.6 % of 200 K");
export const substance = fc.oneof(
  fc.constantFrom(...fluidIds).map((fluid) => ({ fluid })),
  fc.constantFrom(...ratedBlends.map(({ blend }) => blend)).map((blend) => ({ blend })),
);
export const fluid = fc.constantFrom(...fluidIds);
export const optional = <T>(of: Record<string, fc.Arbitrary<T>>) =>
  fc.record(of, { requiredKeys: [] });
export const joined = (name: string, ...parts: fc.Arbitrary<object>[]) =>
  fc.tuple(...parts).map((all) => ({ name, input: Object.assign({}, ...all) as object }));

export const preset = fc.constantFrom("large-orifice", "midsize-expansion", "compact-expansion");
export const vehicle = preset.map((name) => ({ preset: name }));

export const conditions = fc.record({
  ambient: shopAir,
  humidity: span(0, 1),
  speed: span(0, 40),
  engineSpeed: span(8, 60),
  blower: span(0.2, 1),
});
export const read = <T>(of: fc.Arbitrary<T>, u: fc.Arbitrary<number>) =>
  fc.oneof(of, fc.record({ value: of, u }));
export const readings = optional<unknown>({
  low: read(log(5e3, 2e6), log(1, 5e5)),
  high: read(log(1e5, 4.5e6), log(1, 5e5)),
  vent: read(celsius, span(1e-3, 30)),
  superheat: read(span(-60, 120), span(1e-3, 30)),
  subcooling: read(span(-60, 120), span(1e-3, 30)),
  discharge: read(celsius, span(1e-3, 30)),
  liquidLine: read(celsius, span(1e-3, 30)),
  duty: read(span(0, 1), span(1e-3, 0.5)),
  static: read(log(1e4, 4e6), log(1, 5e5)),
  metal: celsius,
});

export const ran = (from: number) =>
  fc.array(
    fc.tuple(conditions, readings).map(([air, own]) => ({ ...air, readings: own })),
    { minLength: from, maxLength: 2 },
  );
