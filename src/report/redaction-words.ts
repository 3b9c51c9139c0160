import type { BodyOf, Hidable } from "../trial/index.ts";

export const hidableNames: Readonly<Record<Hidable, string>> = {
  devices: "names of devices",
  places: "places",
  vehicle: "the vehicle's name",
  instruments: "names of instruments",
  notes: "notes and reasons",
  files: "file names",
};

/** What a redacted log leaves out. */
export function redactionSentence({ hidden, words, originalSeal }: BodyOf<"log-redacted">): string {
  const parts = [
    ...hidden.map((one) => hidableNames[one]),
    ...(words > 0 ? [`${words} chosen ${words === 1 ? "word" : "words"}`] : []),
  ];
  const what = parts.length > 0 ? parts.join(", ") : "nothing";
  return `Redacted before publishing: ${what} were replaced, no number was. Seal of the original log: ${originalSeal}`;
}
