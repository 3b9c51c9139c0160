import type { InstrumentView, ReadingPrompt, TrialView } from "../../trial/index.ts";
import { instrumentFor } from "../shell/preferences.ts";

/** What is read: enough to know which instrument fits. */
type Read = Pick<ReadingPrompt, "quantity" | "dimension">;
type Measures = InstrumentView["measures"];

const kinds: Readonly<Partial<Record<ReadingPrompt["dimension"], readonly Measures[]>>> = {
  pressure: ["pressure", "vacuum"],
  temperature: ["temperature"],
  mass: ["mass"],
  ratio: ["humidity"],
};

/** Instruments that can give this reading, the likeliest first. */
export function instrumentsFor(view: TrialView, prompt: Read): readonly InstrumentView[] {
  const fitting = kinds[prompt.dimension] ?? ["other"];
  const first: Measures | undefined = prompt.quantity === "vacuum" ? "vacuum" : fitting[0];
  return view.instruments
    .filter(({ measures }) => fitting.includes(measures))
    .sort((a, b) => Number(b.measures === first) - Number(a.measures === first));
}

const side = (quantity: string): RegExp | undefined =>
  /low/.test(quantity) ? /low/i : /high/.test(quantity) ? /high/i : undefined;

/** The instrument to offer: the one last used for this quantity, else the only one that fits by name. */
export function offeredInstrument(view: TrialView, prompt: Read): string {
  const fitting = instrumentsFor(view, prompt);
  const last = instrumentFor(view.trial ?? "", prompt.quantity);
  if (last !== undefined && fitting.some(({ id }) => id === last)) return last;
  // "Something else" may be a tachometer or a can: nothing is offered unasked.
  if (kinds[prompt.dimension] === undefined) return "";
  const exact = fitting.filter(
    ({ measures }) =>
      prompt.dimension !== "pressure" || (measures === "vacuum") === (prompt.quantity === "vacuum"),
  );
  const named = exact.filter(({ name }) => side(prompt.quantity)?.test(name) ?? true);
  return (named.length === 1 ? named[0]?.id : exact.length === 1 ? exact[0]?.id : undefined) ?? "";
}
