import type { Hidable } from "./texts.ts";

/** Something that a redaction replaces, for a list before it is done. */
export interface Replacement {
  readonly what: Hidable | "words";
  readonly was: string;
  readonly now: string;
  readonly times: number;
}

/** Shorter than any word that may be chosen, so that no text grows past its limit. */
const gap = "[…]";
export const fewestLetters = 3;

const names: Readonly<Record<Exclude<Hidable, "notes">, string>> = {
  devices: "Device",
  places: "Place",
  vehicle: "Vehicle",
  instruments: "Instrument",
  files: "File",
};

/** Stands in for texts, the same one for the same text, and remembers what it did. */
export class Replacer {
  readonly #done = new Map<string, Replacement>();
  readonly #counts = new Map<Hidable, number>();
  readonly #words: readonly { readonly word: string; readonly found: RegExp }[];

  /** @param words  Shorter ones than three letters are left aside; the longest goes first. */
  constructor(words: readonly string[]) {
    this.#words = [...new Set(words.map((word) => word.trim()))]
      .filter((word) => word.length >= fewestLetters)
      .sort((a, b) => b.length - a.length)
      .map((word) => ({ word, found: new RegExp(escaped(word), "giu") }));
  }

  /** The name that stands for this one from now on. */
  named(what: Exclude<Hidable, "notes">, was: string): string {
    const known = this.#done.get(`${what} ${was}`)?.now;
    return this.#note(what, was, known ?? this.#next(what, was));
  }

  removed(was: string): string {
    return was === "" ? was : this.#note("notes", was, gap);
  }

  /** The text without the chosen words. */
  wordless(text: string): string {
    return this.#words.reduce((left, { word, found }) => {
      const right = left.replace(found, gap);
      if (right !== left) this.#note("words", word, gap);
      return right;
    }, text);
  }

  /** Does a chosen word stand in it? Notes nothing. */
  hits = (text: string): readonly string[] =>
    this.#words.filter(({ found }) => text.search(found) >= 0).map(({ word }) => word);

  get list(): readonly Replacement[] {
    return [...this.#done.values()];
  }

  #next(what: Exclude<Hidable, "notes">, was: string): string {
    const count = (this.#counts.get(what) ?? 0) + 1;
    this.#counts.set(what, count);
    const ending = what === "files" ? (/\.\w{1,5}$/.exec(was)?.[0] ?? "") : "";
    return `${names[what]} ${count}${ending}`;
  }

  #note(what: Replacement["what"], was: string, now: string): string {
    const key = `${what} ${was}`;
    this.#done.set(key, { what, was, now, times: (this.#done.get(key)?.times ?? 0) + 1 });
    return now;
  }
}

const escaped = (word: string): string => word.replace(/[\\^$.*+?()[\]{}|/]/g, "\\$&");
