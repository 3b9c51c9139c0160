import type { Stage } from "../events.ts";

/** Name of each stage and what must be true when it ends. */
export const stageTexts: Readonly<
  Record<Stage, { readonly title: string; readonly endState: string }>
> = {
  plan: {
    title: "Plan",
    endState:
      "The question, the vehicle, the products, the conditions and the instruments are written down before the first run, and every hazard has been read before the first valve turns.",
  },
  prove: {
    title: "Prove",
    endState:
      "The vehicle is healthy on its own refrigerant, so that later differences belong to the product.",
  },
  recover: {
    title: "Recover",
    endState:
      "What was in the vehicle is in a vessel that may hold it, weighed, and the oil that came out is measured.",
  },
  evacuate: {
    title: "Evacuate",
    endState: "Air and water are out, the vacuum holds, and the vehicle is known to be empty.",
  },
  charge: {
    title: "Charge",
    endState:
      "A known mass of a known product is in the vehicle, from a weighed can, and nothing else.",
  },
  run: {
    title: "Run",
    endState:
      "Settled readings in named conditions exist, with the return air's temperature and humidity among them.",
  },
  identify: {
    title: "Identify",
    endState:
      "It is known how probable each possible content of the can is, and which cheap measurement would separate what remains.",
  },
  restore: {
    title: "Restore",
    endState:
      "The product is out and weighed, the vehicle is back on its label refrigerant, and it performs as it did in Prove.",
  },
  compare: {
    title: "Compare",
    endState:
      "Each product stands beside the label refrigerant in the same condition, with what was not equal said next to it.",
  },
  hazards: {
    title: "Hazards",
    endState:
      "It is known what happens if the charge leaks into the cabin or the bay, with the limit it is held against.",
  },
  claims: {
    title: "Claims",
    endState:
      "Each sentence on the label is supported, contradicted or undecided, with the test behind it.",
  },
  publish: {
    title: "Publish",
    endState: "One file carries the answer, its evidence and the means to work it out again.",
  },
};
