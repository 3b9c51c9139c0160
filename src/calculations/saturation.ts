import { z } from "zod";
import {
  fluid as fluidOf,
  type FluidId,
  type PureFluid,
  saturatedPhases,
  saturationAtP,
  saturationAtT,
  type SaturationRange,
} from "../fluids/index.ts";
import { materialOf } from "../service/index.ts";
import { invalidInput, issue, type NoAnswer } from "./answer.ts";
import { estimateSentences, pairSources } from "./blend-answer.ts";
import { blendSaturation, blendSaturationFields } from "./blend-saturation.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation, type Outcome } from "./definition.ts";
import { fraction, optional, pressure, quantity } from "./field.ts";
import { fluidSource } from "./fluid-field.ts";
import {
  type Substance,
  substanceFields,
  substanceOf,
  substanceSources,
} from "./substance-field.ts";

export const TEMPERATURES = { from: 1, to: 5000 };

const pureNumber = (says: string) => z.number().optional().describe(`Pure fluids: ${says}`);

const output = z.strictObject({
  T: pureNumber("temperature, K"),
  p: pureNumber("saturation pressure, absolute, Pa"),
  rhoL: pureNumber("density of saturated liquid, kg/m3"),
  rhoV: pureNumber("density of saturated vapour, kg/m3"),
  hL: pureNumber(
    "enthalpy of saturated liquid, J/kg; IIR reference where the fluid has liquid at 0 °C",
  ),
  hV: pureNumber("enthalpy of saturated vapour, J/kg"),
  sL: pureNumber("entropy of saturated liquid, J/(kg K)"),
  sV: pureNumber("entropy of saturated vapour, J/(kg K)"),
  ...blendSaturationFields,
  q: z.number().optional().describe("Vapour mass fraction as given"),
  rho: z.number().optional().describe("Density of the mixture of phases at q, kg/m3"),
  h: z.number().optional().describe("Enthalpy of the mixture of phases at q, J/kg"),
  s: z.number().optional().describe("Entropy of the mixture of phases at q, J/(kg K)"),
});

/** Liquid and vapour do not coexist there: why, and between which limits they do. */
function noSaturation(id: FluidId, range: SaturationRange): NoAnswer {
  const { quantity: symbol, value, from, to } = range;
  const words = symbol === "T" ? "K" : "Pa";
  const above = range.reason === "supercritical";
  return {
    kind: "no-answer",
    reason: above ? "above-critical" : "below-minimum",
    message: above
      ? `${id} has no boiling above its critical point (${to.toPrecision(6)} ${words}).`
      : `The equation of ${id} begins at ${from.toPrecision(6)} ${words}.`,
    numbers: { value, from, to },
  };
}

/** Both phases per kg, and their mixture when a vapour fraction was asked for. */
function resultOf(
  fluid: PureFluid,
  at: { T: number; p: number; rhoL: number; rhoV: number },
  q: number | undefined,
) {
  const { M } = fluid.info;
  const { liquid, vapour } = saturatedPhases(fluid, { kind: "saturated", ...at });
  const [hL, hV, sL, sV] = [liquid.h / M, vapour.h / M, liquid.s / M, vapour.s / M];
  const rhoL = at.rhoL * M;
  const rhoV = at.rhoV * M;
  const phases = { T: at.T, p: at.p, rhoL, rhoV, hL, hV, sL, sV };
  if (q === undefined) return phases;
  const mixed = (ofLiquid: number, ofVapour: number) => ofLiquid + q * (ofVapour - ofLiquid);
  return { ...phases, q, rho: 1 / mixed(1 / rhoL, 1 / rhoV), h: mixed(hL, hV), s: mixed(sL, sV) };
}

/** A pure fluid's saturation, or why there is none. */
function pureOutcome(
  id: FluidId,
  at: { readonly quantity: "T" | "p"; readonly value: number },
  q: number | undefined,
): Outcome<z.infer<typeof output>> {
  const fluid = fluidOf(id);
  const find = at.quantity === "T" ? saturationAtT : saturationAtP;
  const found = find(fluid, at.value);
  if (found.kind === "out-of-range") return noSaturation(id, found);
  return { kind: "answer", result: resultOf(fluid, found, q), sources: [fluidSource(id)] };
}

/** A blend's bubble and dew point, or why there are none. */
function blendOutcome(
  substance: Substance,
  at: { readonly quantity: "T" | "p"; readonly value: number },
): Outcome<z.infer<typeof output>> {
  const material = materialOf(substance.moles);
  if (material.kind === "pure") throw new RangeError("a blend has several parts");
  const found = blendSaturation(substance.name, material, at);
  if (found.kind === "no-answer") return found;
  const assumptions = estimateSentences(material);
  return {
    kind: "answer",
    result: found.result,
    uncertainty: found.uncertainty,
    sources: [...substanceSources(substance), ...pairSources(material)],
    ...(assumptions.length > 0 && { assumptions }),
  };
}

export const saturation = defineCalculation({
  name: "saturation",
  title: "Saturation of a fluid or blend at a temperature or a pressure",
  fields: {
    ...substanceFields,
    T: optional(quantity("temperature", "Temperature; give this or p", TEMPERATURES)),
    p: optional(pressure("Pressure; give this or T")),
    q: optional(fraction("Vapour mass fraction, for the mixture of both phases; pure fluids only")),
  },
  output,
  cautions: [cautions.equation, cautions.identity],
  sources: [],
  run({ fluid, blend, T, p, q }) {
    const substance = substanceOf({ fluid, blend });
    if (substance.kind === "invalid") return substance;
    if ((T === undefined) === (p === undefined)) {
      return invalidInput(
        issue("T", T === undefined ? "neither T nor p" : "both T and p", "either T or p"),
      );
    }
    const at = { quantity: p ? "p" : "T", value: p?.p ?? T ?? NaN } as const;
    if (substance.pure) return pureOutcome(substance.pure, at, q);
    return q === undefined
      ? blendOutcome(substance, at)
      : invalidInput(issue("q", q, "nothing for a blend: its phases differ, ask for the state"));
  },
});
