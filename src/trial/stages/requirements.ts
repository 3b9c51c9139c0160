import type { ReadingQuantity, Stage } from "../events.ts";
import { quantityWords } from "../quantity-names.ts";
import type { Entry, ReadingView, RunView, TrialView } from "../view.ts";
import type { Requirement } from "./view.ts";

/** Everything of a view but its stages, which are made from it. */
export type Facts = Omit<TrialView, "stages">;

export interface Place {
  readonly stage: Stage;
  readonly round: string | undefined;
}

export type Standing = readonly Entry[];

/** Has this entry been made at that stage and in that round? */
export const isAt = (
  place: Place,
  where: { readonly stage: Stage; readonly round?: string | undefined },
) => where.stage === place.stage && where.round === place.round;

/** What is to be done, and what is then true. */
export type Wording = readonly [todo: string, statement: string];

export const requirement = (
  id: string,
  kind: Requirement["kind"],
  [todo, statement]: Wording,
  state: { readonly met: boolean; readonly done: string; readonly missing: string },
  prompts: readonly string[] = [],
): Requirement => ({
  id,
  kind,
  text: state.met ? statement : todo,
  statement,
  met: state.met,
  detail: state.met ? state.done : state.missing,
  prompts,
});

/** Each of these quantities has a reading here. */
export function readingsTaken(
  { readings }: Facts,
  place: Place,
  id: string,
  words: Wording,
  quantities: readonly ReadingQuantity[],
): Requirement {
  const here = readings.filter((reading) => isAt(place, reading));
  const missing = quantities.filter((quantity) => !has(here, quantity));
  const state = {
    met: missing.length === 0,
    done: quantities.length === 1 ? "The reading is taken." : "The readings are taken.",
    missing: `Still to read: ${missing.map(quantityWords).join(", ")}.`,
  };
  return requirement(id, "reading", words, state, quantities);
}

const has = (readings: readonly ReadingView[], quantity: ReadingQuantity): boolean =>
  readings.some((reading) => reading.quantity === quantity);

/** A person says that something is so; the item's id is the requirement's. */
export function confirmed(
  { confirmations }: Facts,
  place: Place,
  id: string,
  words: Wording,
): Requirement {
  const last = confirmations.findLast((one) => isAt(place, one) && one.item === id);
  return requirement(id, "confirm", words, {
    met: last?.confirmed === true,
    done: "Somebody confirmed it.",
    missing: "Nobody confirmed it yet.",
  });
}

/** A run here whose values contain the three results. */
export function runRecorded(
  { runs }: Facts,
  place: Place,
  id: string,
  words: Wording,
  fits: (run: RunView) => boolean,
): Requirement {
  const here = runs.filter((run) => isAt(place, run) && fits(run));
  const complete = here.filter(({ values }) =>
    (["low-side", "high-side", "vent-temperature"] as const).every((quantity) =>
      values.some((value) => value.quantity === quantity),
    ),
  );
  return requirement(id, "run", words, {
    met: complete.length > 0,
    done: recordedWords(complete.map(({ name }) => name)),
    missing:
      here.length === 0
        ? "No run is recorded yet."
        : "A run is recorded, but low side, high side and vent air are not all in it.",
  });
}

/** More names than these are no longer read. */
const FEW_NAMES = 2;

const recordedWords = (names: readonly string[]): string =>
  names.length <= FEW_NAMES
    ? `Recorded: ${names.join("; ")}.`
    : `${names.length} runs are recorded, ${names.at(-1) ?? ""} the last.`;

/** Return-air temperature and humidity, by trace or by hand, in each run here. */
export function returnAirKnown(facts: Facts, place: Place): Requirement {
  const quantities = ["return-air-temperature", "return-air-humidity"] as const;
  const here = facts.runs.filter((run) => isAt(place, run));
  const lacking = here.filter(
    ({ values }) => !quantities.every((q) => values.some(({ quantity }) => quantity === q)),
  );
  return requirement(
    "return-air",
    "reading",
    [
      "Read the return air's temperature and humidity for every run.",
      "The return air's temperature and humidity are known for every run.",
    ],
    {
      met: here.length > 0 && lacking.length === 0,
      done: "No run lacks them.",
      missing:
        here.length === 0
          ? "No run is recorded yet."
          : `They are worth more than any other refinement. Missing for: ${lacking.map(({ name }) => name).join("; ")}.`,
    },
    quantities,
  );
}
