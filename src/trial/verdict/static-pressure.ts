import { fluid as fluidOf, fluidInfo, isFluidId } from "../../fluids/index.ts";
import { staticCheck, type StaticCheck, staticMeanings } from "../../service/index.ts";
import { formatValue } from "../../units/index.ts";
import type { TrialView } from "../view.ts";
import {
  asMeasured,
  companion,
  expectedFluid,
  measure,
  nothingExpected,
  referenceOf,
} from "./context.ts";
import { judgeStaticBlend } from "./static-blend.ts";
import type { ReadingInContext, Verdict, VerdictDetail } from "./view.ts";
import { airOf, shown, shownStep, withoutBand } from "./words.ts";

const words = {
  within: "in band",
  higher: "too high",
  lower: "too low",
  undecided: "band too wide",
} as const;

/**
 * Static pressure against the saturation pressure of what should be inside, at its metal's temperature.
 * Without a named gauge a reading outside the band is undecided: its class could explain it.
 */
export function judgeStatic(view: TrialView, reading: ReadingInContext): Verdict {
  const { value, u = 0 } = measure(view, reading);
  const bare = withoutBand({ value, u });
  const expected = expectedFluid(view, reading);
  if (!expected) return bare(...nothingExpected(view, reading));
  if (expected.blend !== undefined) {
    return judgeStaticBlend(view, reading, { blend: expected.blend, name: expected.name });
  }
  if (expected.fluid === undefined || !isFluidId(expected.fluid)) {
    return bare(
      "no fluid declared",
      `${expected.name} names no fluid with an equation here. Keep the reading: with a second one at another temperature it helps to tell what is inside.`,
    );
  }
  const metal = companion(view, reading, "metal-temperature");
  if (!metal) {
    return bare("needs temperature", "Enter the metal's temperature first: the band rests on it.");
  }
  const T = asMeasured(metal);
  const check = staticCheck({
    fluid: fluidOf(expected.fluid),
    metal: { T: T.value, u: T.u },
    pressure: { p: value, u, reference: referenceOf(reading) },
    air: airOf(view),
    volume: view.vehicle?.internalVolume,
  });
  const at = shown(T.value, metal.typed.unit);
  if (check.kind === "no-saturation") {
    const why =
      check.reason === "above-critical" ? "above its critical point" : "too cold for its equation";
    return bare("no saturation", `At ${at} ${expected.name} is ${why}.`);
  }
  const gaugeMissing = reading.instrument === undefined && isOutside(check);
  return {
    kind: gaugeMissing ? "undecided" : check.verdict,
    word: gaugeMissing ? "name the gauge" : words[check.verdict],
    sentence: gaugeMissing
      ? `The reading is outside of the band of ${expected.name}, but no gauge is named: its class may explain it.`
      : sentence(check, expected.name, reading.typed.unit),
    reading: { value, u },
    band: { ...check.band, expected: check.expected },
    basis: `Saturation of ${expected.name} at ${at}, the metal's temperature`,
    details: [chargeDetail(view, check, expected.name), ...meanings(check), ...alike(check)],
    sources: [fluidInfo(expected.fluid).source, "JCGM 100:2008 (uncertainty)"],
  };
}

const isOutside = ({ verdict }: StaticCheck): boolean =>
  verdict === "higher" || verdict === "lower";

function sentence(check: StaticCheck, name: string, unit: string): string {
  const distance = shownStep(check.difference, unit, check.u);
  const times = `${(Math.abs(check.difference) / check.u).toFixed(1)} standard uncertainties`;
  switch (check.verdict) {
    case "within":
      return `The reading agrees with ${name} that has liquid in it. It does not say how much, nor that it is pure.`;
    case "higher":
      return `The reading is ${distance} higher than ${name} gives at this temperature: ${times}.`;
    case "lower":
      return `The reading is ${distance} lower than ${name} gives at this temperature: ${times}.`;
    case "undecided":
      return `These instruments leave the band too wide to say anything about ${name}.`;
  }
}

/** A label charge in pounds or ounces: small masses are then read in ounces. */
const isUs = (unit: string | undefined): boolean => unit === "lb" || unit === "oz";

/** Least mass that shows the same, in the unit of the label charge. */
function chargeDetail({ vehicle }: TrialView, check: StaticCheck, name: string): VerdictDetail {
  const least =
    check.leastMass === undefined
      ? `${formatValue(check.leastDensity, "g/L")} of internal volume (enter the vehicle's internal volume to see the mass)`
      : shown(check.leastMass, isUs(vehicle?.labelChargeTyped.unit) ? "oz" : "g");
  return {
    heading: "Static pressure does not measure the charge",
    text: `Any mass from ${least} up shows this same pressure, because vapour over a drop of liquid ${name} is enough.`,
    source: "vapour density at saturation times volume, from the fluid's equation of state",
  };
}

const meanings = (check: StaticCheck): VerdictDetail[] =>
  staticMeanings(check.verdict).map(({ cause, says, source }) => ({
    heading: asHeading(cause),
    text: says,
    source,
  }));

/** `look-alike` in the data file is a name; people read it as a heading. */
const asHeading = (cause: string): string =>
  cause.charAt(0).toUpperCase() + cause.slice(1).replaceAll("-", " ");

const alike = ({ lookAlikes }: StaticCheck): VerdictDetail[] =>
  lookAlikes.length === 0
    ? []
    : [
        {
          heading: "Other fluids show the same here",
          text: `Within the uncertainty of this reading: ${lookAlikes.join(", ")}. Pressure alone does not identify a refrigerant.`,
          source: "saturation pressures from the fluids' equations of state",
        },
      ];
