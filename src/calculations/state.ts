import { z } from "zod";
import { fluid as fluidOf, type FluidId, type State, type StateFailure } from "../fluids/index.ts";
import { materialOf } from "../service/index.ts";
import {
  type InvalidInput,
  invalidInput,
  issue,
  type NoAnswer,
  type NoAnswerReason,
} from "./answer.ts";
import { estimateSentences, noBulk, pairSources } from "./blend-answer.ts";
import { acceptedBlendPairs, blendState, blendStateFields, blendStateView } from "./blend-state.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation, type Outcome } from "./definition.ts";
import { fraction, optional, pressure, quantity } from "./field.ts";
import { fluidSource } from "./fluid-field.ts";
import { TEMPERATURES } from "./saturation.ts";
import {
  type Substance,
  substanceFields,
  substanceOf,
  substanceSources,
} from "./substance-field.ts";
import { acceptedPairs, solverOf, type Symbol } from "./state-pairs.ts";

const output = z.strictObject({
  T: z.number().describe("Temperature, K"),
  p: z.number().describe("Absolute pressure, Pa"),
  rho: z.number().describe("Density, kg/m3"),
  h: z.number().describe("Enthalpy, J/kg; IIR reference where the fluid has liquid at 0 °C"),
  s: z.number().describe("Entropy, J/(kg K)"),
  u: z.number().describe("Internal energy, J/kg"),
  cv: z.number().nullable().describe("Isochoric heat capacity, J/(kg K); none in two phases"),
  cp: z.number().nullable().describe("Isobaric heat capacity, J/(kg K); none in two phases"),
  w: z.number().nullable().describe("Speed of sound, m/s; none in two phases"),
  q: z.number().nullable().describe("Vapour mass fraction; only in two phases"),
  phase: z.enum([
    "liquid",
    "gas",
    "two-phase",
    "supercritical",
    "supercritical-liquid",
    "supercritical-gas",
  ]),
  ...blendStateFields,
});
type Result = z.infer<typeof output>;
/** The result of an answered `state`. */
export type StateResult = Result;

/** Molar to specific: what is divided by M, what is multiplied, what stays. */
function perKilogram(state: State, M: number): Result {
  const specific = (value: number | null) => (value === null ? null : value / M);
  const { T, p, rho, h, s, u, cv, cp, w, q, phase } = state;
  return {
    T,
    p,
    rho: rho * M,
    h: h / M,
    s: s / M,
    u: u / M,
    cv: specific(cv),
    cp: specific(cp),
    w,
    q,
    phase,
  };
}

const toMolar = (symbol: Symbol, value: number, M: number): number => {
  switch (symbol) {
    case "rho":
      return value / M;
    case "h":
    case "s":
      return value * M;
    case "T":
    case "p":
    case "q":
      return value;
  }
};

const REASONS: Readonly<Record<StateFailure["reason"], NoAnswerReason>> = {
  "out-of-range": "outside-equation",
  supercritical: "above-critical",
  "below-minimum": "below-minimum",
  "not-converged": "not-converged",
};

const MESSAGES: Readonly<Record<StateFailure["reason"], string>> = {
  "out-of-range": "outside the limits of its equation",
  supercritical: "above the critical point, where liquid and vapour do not coexist",
  "below-minimum": "below the coldest saturation state of its equation",
  "not-converged": "part of a pair for which no state was found within the limits of its equation",
};

/** Figures of a failure per kg, without those that are not finite ("no upper limit"). */
function noState(id: FluidId, failure: StateFailure, M: number): NoAnswer {
  const { reason, quantity: symbol, value } = failure;
  const ofPair =
    failure.reason === "not-converged"
      ? { value, reached: failure.reached }
      : { value, from: failure.from, to: failure.to };
  const figures = Object.entries(ofPair)
    .map(([name, molar]): [string, number] => [name, molar / toMolar(symbol, 1, M)])
    .filter(([, figure]) => Number.isFinite(figure));
  return {
    kind: "no-answer",
    reason: REASONS[reason],
    message: `${id}: ${symbol} is ${MESSAGES[reason]}.`,
    numbers: Object.fromEntries(figures),
  };
}

const symbols = ["T", "p", "h", "s", "rho", "q"] as const;

/** A quantity of the pair asked for, per kg. */
type Asked = readonly [symbol: Symbol, value: number];

/** The pair of an input, or what is wrong with it. */
function pairOf(
  given: Partial<Record<Symbol, number | undefined>>,
): readonly [Asked, Asked] | InvalidInput {
  const asked = symbols.flatMap((symbol): Asked[] => {
    const value = given[symbol];
    return value === undefined ? [] : [[symbol, value]];
  });
  const [first, second, ...more] = asked;
  if (first && second && more.length === 0) return [first, second];
  const names = asked.map(([symbol]) => symbol).join(", ");
  return invalidInput(
    issue("T", names === "" ? "none" : names, `exactly two of: ${symbols.join(", ")}`),
  );
}

const unknownPair = ([first]: Asked, [second]: Asked, accepted: string): InvalidInput =>
  invalidInput(issue(second, `(${first}, ${second})`, `one of the pairs ${accepted}`));

/** A pure fluid's state, or why there is none. */
function pureOutcome(id: FluidId, first: Asked, second: Asked): Outcome<Result> {
  const solver = solverOf(first[0], second[0]);
  if (!solver) return unknownPair(first, second, acceptedPairs);
  const fluid = fluidOf(id);
  const { M } = fluid.info;
  const given = new Map([first, second]);
  const [a, b] = solver.symbols.map((symbol) => toMolar(symbol, given.get(symbol) ?? NaN, M));
  const outcome = solver.solve(fluid, a ?? NaN, b ?? NaN);
  if (outcome.kind === "failed") return noState(id, outcome, M);
  const pair = solver.symbols.join(" ");
  const ambiguous = id === "R718" && (pair === "T s" || pair === "p rho");
  return {
    kind: "answer",
    result: perKilogram(outcome, M),
    ...(ambiguous && { cautions: [cautions.coldWater] }),
    sources: [fluidSource(id)],
  };
}

/** A blend's state, or why there is none. */
function blendOutcome(substance: Substance, first: Asked, second: Asked): Outcome<Result> {
  const material = materialOf(substance.moles);
  if (material.kind === "pure") throw new RangeError("a blend has several parts");
  const outcome = blendState(material, first, second);
  if (!outcome) return unknownPair(first, second, acceptedBlendPairs);
  if (outcome.kind === "failed") return noBulk(substance.name, outcome);
  const assumptions = estimateSentences(material);
  return {
    kind: "answer",
    result: blendStateView(outcome),
    sources: [...substanceSources(substance), ...pairSources(material)],
    ...(assumptions.length > 0 && { assumptions }),
  };
}

export const state = defineCalculation({
  name: "state",
  title: "State of a fluid or blend from two of T, p, h, s, rho and q",
  fields: {
    ...substanceFields,
    T: optional(quantity("temperature", "Temperature", TEMPERATURES)),
    p: optional(pressure("Pressure")),
    h: optional(quantity("specific-energy", "Enthalpy, IIR reference", { from: -1e8, to: 1e8 })),
    s: optional(quantity("specific-entropy", "Entropy, IIR reference", { from: -1e6, to: 1e6 })),
    // No liquid of this house reaches 5000 kg/m3.
    rho: optional(quantity("density", "Density", { from: 1e-12, to: 5000 })),
    q: optional(fraction("Vapour mass fraction")),
  },
  output,
  cautions: [cautions.equation],
  sources: [],
  run({ fluid, blend, p, ...rest }) {
    const substance = substanceOf({ fluid, blend });
    if (substance.kind === "invalid") return substance;
    const pair = pairOf({ ...rest, p: p?.p });
    if ("kind" in pair) return pair;
    return substance.pure ? pureOutcome(substance.pure, ...pair) : blendOutcome(substance, ...pair);
  },
});
