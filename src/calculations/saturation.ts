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
import { invalidInput, issue, type NoAnswer } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { fraction, optional, pressure, quantity } from "./field.ts";
import { fluidField, fluidSource } from "./fluid-field.ts";

export const TEMPERATURES = { from: 1, to: 5000 };

const output = z.strictObject({
  T: z.number().describe("Temperature, K"),
  p: z.number().describe("Saturation pressure, absolute, Pa"),
  rhoL: z.number().describe("Density of saturated liquid, kg/m3"),
  rhoV: z.number().describe("Density of saturated vapour, kg/m3"),
  hL: z
    .number()
    .describe(
      "Enthalpy of saturated liquid, J/kg; IIR reference where the fluid has liquid at 0 °C",
    ),
  hV: z.number().describe("Enthalpy of saturated vapour, J/kg"),
  sL: z.number().describe("Entropy of saturated liquid, J/(kg K)"),
  sV: z.number().describe("Entropy of saturated vapour, J/(kg K)"),
  q: z.number().optional().describe("Vapour mass fraction as given"),
  rho: z.number().optional().describe("Density of the mixture of phases at q, kg/m3"),
  h: z.number().optional().describe("Enthalpy of the mixture of phases at q, J/kg"),
  s: z.number().optional().describe("Entropy of the mixture of phases at q, J/(kg K)"),
});

/** Liquid and vapour do not coexist there: why, and between which limits they do. */
export function noSaturation(id: FluidId, range: SaturationRange): NoAnswer {
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

export const saturation = defineCalculation({
  name: "saturation",
  title: "Saturation of a pure fluid at a temperature or a pressure",
  fields: {
    fluid: fluidField,
    T: optional(quantity("temperature", "Temperature; give this or p", TEMPERATURES)),
    p: optional(pressure("Pressure; give this or T")),
    q: optional(fraction("Vapour mass fraction, for the mixture of both phases")),
  },
  output,
  cautions: [cautions.equation, cautions.identity],
  sources: [],
  run({ fluid: id, T, p, q }) {
    if ((T === undefined) === (p === undefined)) {
      return invalidInput(
        issue("T", T === undefined ? "neither T nor p" : "both T and p", "either T or p"),
      );
    }
    const fluid = fluidOf(id);
    const sat = p === undefined ? saturationAtT(fluid, T ?? 0) : saturationAtP(fluid, p.p);
    if (sat.kind === "out-of-range") return noSaturation(id, sat);
    return { kind: "answer", result: resultOf(fluid, sat, q), sources: [fluidSource(id)] };
  },
});
