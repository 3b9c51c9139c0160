import { vacuumCheck, type VacuumCheck } from "../../service/index.ts";
import type { TrialView } from "../view.ts";
import { asMeasured, measure, referenceOf } from "./context.ts";
import type { ReadingInContext, Verdict, VerdictDetail } from "./view.ts";
import { airOf, shown, withoutBand } from "./words.ts";

const outcomes = {
  "water-boils": { kind: "within", word: "water boils" },
  "not-deep-enough": { kind: "higher", word: "not deep enough" },
  "gauge-cannot-tell": { kind: "undecided", word: "gauge cannot tell" },
  "deeper-than-possible": { kind: "undecided", word: "check gauge or altitude" },
} as const;

/** A vacuum reading against the pressure at which water boils at shop temperature, and the deepest possible here. */
export function judgeVacuum(view: TrialView, reading: ReadingInContext): Verdict {
  const { value, u = 0 } = measure(view, reading);
  const bare = withoutBand({ value, u });
  // Shop temperature serves the whole day: the latest one counts, from whatever stage.
  const shop = view.readings.findLast(({ quantity }) => quantity === "shop-temperature");
  if (!shop) {
    return bare("needs temperature", "Enter the shop temperature first: water boils by it.");
  }
  const air = airOf(view);
  const T = asMeasured(shop).value;
  const check = vacuumCheck({ p: value, uReading: u, reference: referenceOf(reading), T, air });
  if (check.kind === "out-of-range") {
    return bare("no band", "The shop temperature is outside of what water's equation covers.");
  }
  const at = shown(T, shop.typed.unit);
  return {
    ...outcomes[check.verdict],
    sentence: sentence(check, at),
    reading: { value, u },
    band: { from: 0, to: check.boilingPressure },
    basis: `Boiling pressure of water at ${at}, the shop's temperature`,
    details: details(check, view, unitsOf(reading, shop.typed.unit)),
    sources: [
      "saturation pressure of water: Hyland and Wexler 1983, as in ASHRAE Fundamentals",
      "standard atmosphere: ASHRAE Fundamentals",
    ],
  };
}

function sentence(check: VacuumCheck, at: string): string {
  switch (check.verdict) {
    case "water-boils":
      return check.depth.deep === "reached"
        ? `This is deep enough for water to boil at ${at}, and below 500 micron. Hold it: only the rise tells tight from wet.`
        : `Water boils at ${at} at this pressure. Practice goes on to 500 micron, because the cold spots are colder than the shop.`;
    case "not-deep-enough":
      return `Water does not boil at ${at} at this pressure: keep pulling.`;
    case "gauge-cannot-tell":
      return `This gauge cannot tell whether water boils at ${at}: its error is larger than the difference. A micron gauge can.`;
    case "deeper-than-possible":
      return "This is deeper than the air here allows: check the gauge's zero, the altitude or the barometer.";
  }
}

interface Units {
  readonly temperature: string;
  readonly vacuum: string;
  readonly deepest: string;
  readonly air: string;
}

/** Units of the sentences: those that were typed, and their kin for what nobody types here. */
function unitsOf(reading: ReadingInContext, temperature: string): Units {
  const isUs = temperature === "°F";
  const vacuum = referenceOf(reading) === "absolute" ? reading.typed.unit : "mbar";
  return {
    temperature,
    vacuum,
    deepest: isUs ? "inHg(vac)" : "bar(g)",
    air: isUs ? "inHg" : "hPa",
  };
}

function details(check: VacuumCheck, view: TrialView, units: Units): VerdictDetail[] {
  const { value: atmosphere, from } = view.atmosphere;
  const deepest = shown(atmosphere - check.deepestReading, units.deepest, atmosphere);
  const boils = check.boilingTemperature;
  const list: VerdictDetail[] = [
    {
      heading: "The deepest reading possible here",
      text: `A perfect pump would show ${deepest} with the air at ${shown(atmosphere, units.air)} (${from}). A vacuum gauge that counts from the air cannot go past it.`,
      source: "local air less nothing",
    },
    {
      heading: "Where water boils",
      text: `Water boils at ${shown(check.boilingPressure, units.vacuum)} here.${
        boils === undefined
          ? ""
          : ` At the reading it boils at ${shown(boils, units.temperature)} or sublimes as ice.`
      }`,
      source: "Hyland and Wexler 1983",
    },
    {
      heading: "What a vacuum does not show",
      text: "It loads the seals inward by one bar; service loads them outward by five to twenty. A vacuum is a test for gross leaks and dryness.",
      source: "common practice, no source",
    },
  ];
  return list;
}
