/** What each stage needs before it can be called done: one rule a stage, by the stage's name. */
export { plan, prove } from "./before-rounds.ts";
export { charge, evacuate, identify, recover, run } from "./rounds.ts";
export { claims, compare, hazards, publish, restore } from "./after-rounds.ts";
