import type { RunView } from "../view.ts";
import {
  type Facts,
  type Place,
  requirement,
  type Standing,
  type Wording,
} from "./requirements.ts";
import type { Requirement } from "./view.ts";

/** What each stage needs before it can be called done. */
export type Rule = (facts: Facts, entries: Standing, place: Place) => readonly Requirement[];

export const setUp = (id: string, words: Wording, met: boolean, missing: string): Requirement =>
  requirement(id, "set-up", words, { met, done: "It is written down.", missing });

export const onLabel =
  ({ vehicle }: Facts) =>
  ({ charged }: RunView): boolean =>
    charged.kind === "fluid" && charged.fluid === vehicle?.labelRefrigerant;
