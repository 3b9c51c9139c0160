import { toSI } from "../units/index.ts";
import { given } from "./given.ts";
import { instrumentUncertainty } from "./instruments.ts";
import { ofType } from "./plan.ts";
import type { ConfirmationView, Entry, InstrumentView, NoteView, ReadingView } from "./view.ts";

/** Every reading that stands, in SI, with its instrument's uncertainty. */
export const readingViews = (
  entries: readonly Entry[],
  instruments: readonly InstrumentView[],
  atmosphere: number,
): ReadingView[] =>
  ofType(entries, "reading-taken").map(({ id, when, body }) => {
    const value = toSI(body.value, atmosphere);
    const instrument = instruments.find((one) => one.id === body.instrument);
    return given({
      id,
      quantity: body.quantity,
      form: body.form,
      typed: body.value,
      value,
      u: instrument && instrumentUncertainty(instrument, value, atmosphere),
      instrument: body.instrument,
      stage: body.stage,
      round: body.round,
      run: body.run,
      vessel: body.vessel,
      place: body.place,
      note: body.note,
      when,
    });
  });

export const noteViews = (entries: readonly Entry[]): NoteView[] =>
  ofType(entries, "note-written").map(({ id, when, body }) =>
    given({ id, when, stage: body.stage, round: body.round, text: body.text }),
  );

/** The last word on each item of each stage and round. */
export function confirmationViews(entries: readonly Entry[]): ConfirmationView[] {
  const last = new Map<string, ConfirmationView>();
  for (const { id, when, body } of ofType(entries, "item-confirmed")) {
    const { stage, round, item, confirmed } = body;
    const key = `${stage} ${round ?? ""} ${item}`;
    // A later word replaces an earlier one in its own place of the order.
    last.delete(key);
    last.set(key, given({ id, when, stage, round, item, confirmed }));
  }
  return [...last.values()];
}
