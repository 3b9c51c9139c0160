import { blendInfo } from "../../fluids/index.ts";
import {
  blendBubble,
  blendDew,
  type BlendMaterial,
  materialOf,
  pressureDoubt,
  toMoles,
} from "../../service/index.ts";
import type { TrialView } from "../view.ts";
import { asMeasured, companion, measure, referenceOf } from "./context.ts";
import type { ReadingInContext, Verdict } from "./view.ts";
import { shown, withoutBand } from "./words.ts";

const words = { within: "in band", higher: "too high", lower: "too low" } as const;

/** The blend of a name, ready to compute; undefined if the name is none. */
function materialNamed(blend: string): BlendMaterial | undefined {
  const info = blendInfo(blend);
  if (!info) return undefined;
  const masses = info.shares.map(({ fluid, mass }) => ({ fluid, fraction: mass }));
  const material = materialOf(toMoles(masses));
  return material.kind === "blend" ? material : undefined;
}

/** Dew and bubble pressure, Pa, or undefined where one of them does not exist. */
function limitsAt(
  material: BlendMaterial,
  T: number,
): readonly [dew: number, bubble: number] | undefined {
  const [bubble, dew] = [blendBubble(material, "T", T), blendDew(material, "T", T)];
  return bubble.kind === "bulk" && dew.kind === "bulk" ? [dew.p, bubble.p] : undefined;
}

/**
 * Static pressure of a named blend: between its dew and bubble pressure at the metal's temperature, by how much of
 * it is liquid. The band adds what gauge, thermometer, local air and the equations leave open at either end.
 *
 * @param blend Name of the blend, as in the list of named blends.
 */
export function judgeStaticBlend(
  view: TrialView,
  reading: ReadingInContext,
  { blend, name }: { readonly blend: string; readonly name: string },
): Verdict {
  const { value, u = 0 } = measure(view, reading);
  const bare = withoutBand({ value, u });
  const metal = companion(view, reading, "metal-temperature");
  if (!metal) {
    return bare("needs temperature", "Enter the metal's temperature first: the band rests on it.");
  }
  const T = asMeasured(metal);
  const material = materialNamed(blend);
  const limits = material && limitsAt(material, T.value);
  const at = shown(T.value, metal.typed.unit);
  if (!material || !limits) {
    return bare("no saturation", `At ${at} ${name} has no dew and bubble pressure.`);
  }
  const [dew, bubble] = limits;
  const warmer = limitsAt(material, T.value + T.u) ?? limits;
  const air = referenceOf(reading) === "air" ? view.atmosphere.u : 0;
  const doubt = pressureDoubt(material, bubble, (other) =>
    blendBubble(other as BlendMaterial, "T", T.value),
  );
  const reach = (end: 0 | 1): number => 2 * Math.hypot(u, air, doubt, warmer[end] - limits[end]);
  const band = { from: Math.max(0, dew - reach(0)), to: bubble + reach(1) };
  const side = value > band.to ? "higher" : value < band.from ? "lower" : "within";
  const unnamed = side !== "within" && reading.instrument === undefined;
  return {
    kind: unnamed ? "undecided" : side,
    word: unnamed ? "name the gauge" : words[side],
    sentence: unnamed
      ? `The reading is outside of the band of ${name}, but no gauge is named: its class may explain it.`
      : sentences(name)[side],
    reading: { value, u },
    band,
    basis: `Dew to bubble pressure of ${name} at ${at}, the metal's temperature`,
    details: [
      {
        heading: "Static pressure does not measure the charge",
        text: "A blend's pressure lies between dew and bubble point by how much of it is liquid. It moves a little with the charge and a lot with the temperature.",
        source: "equilibrium of the blend, from its equations of state",
      },
      {
        heading: "Pressure does not identify",
        text: "Other blends and contaminated fills show the same pressure at one temperature.",
        source: "saturation pressures from the fluids' equations of state",
      },
    ],
    sources: [blendInfo(blend)?.source ?? "", "JCGM 100:2008 (uncertainty)"],
  };
}

const sentences = (name: string) =>
  ({
    within: `The reading agrees with ${name} that has liquid in it. It does not say how much, nor that it is pure.`,
    higher: `The reading is higher than the bubble pressure of ${name} allows.`,
    lower: `The reading is lower than the dew pressure of ${name} allows.`,
  }) as const;
