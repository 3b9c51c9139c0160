import type { ProductView } from "../view.ts";

/** How a content can hurt; `unknown` is each of the others. */
export const harms = ["burns", "toxic", "attacks-aluminium", "unknown"] as const;
export type Harm = (typeof harms)[number];

/** What a can is handled as, and what that rests on. */
export interface Treatment {
  /**
   * `identified`: readings bear it out. All others prove nothing: `undecided` and `unexplained` readings, a `test` that
   * speaks against the label, `unweighed` readings, the `label` alone, `silent` where not even that says anything.
   */
  readonly proof:
    "identified" | "undecided" | "unexplained" | "test" | "unweighed" | "label" | "silent";
  /** All that it may still do, by every content that is still probable. */
  readonly harms: readonly Harm[];
  /** Of an identified content, those that it has by itself. */
  readonly own?: readonly Harm[];
}

/**
 * What a can is handled as before anything is weighed: the worst of what a can may hold, whatever its label declares.
 * No label moves those contents out of what is probable (findings/treatments.test.ts).
 */
export const unweighed = ({ fluid }: Pick<ProductView, "fluid">): Treatment => ({
  proof: fluid === undefined ? "silent" : "label",
  harms,
});

export const mayBurn = ({ harms: all }: Treatment): boolean =>
  all.includes("burns") || all.includes("unknown");

const words: Readonly<Record<Exclude<Harm, "unknown">, string>> = {
  burns: "flammable",
  toxic: "poisonous",
  "attacks-aluminium": "attacking aluminium",
};

/** “flammable, poisonous and attacking aluminium”; empty where nothing of that is probable. */
export function harmWords(all: readonly Harm[]): string {
  const every = all.includes("unknown");
  const said = harms.flatMap((harm) =>
    harm !== "unknown" && (every || all.includes(harm)) ? [words[harm]] : [],
  );
  return said.length > 1
    ? `${said.slice(0, -1).join(", ")} and ${said.at(-1) ?? ""}`
    : (said[0] ?? "");
}

const because: Readonly<Record<Treatment["proof"], string>> = {
  identified: "What is in the can was identified, but worse is not ruled out.",
  undecided: "What is in the can is not proven: its readings leave more than one answer.",
  unexplained:
    "What is in the can is not proven: nothing that is known here explains its readings.",
  test: "What is in the can is not proven: a test says that it may burn or is not what its label declares.",
  unweighed: "What is in the can is not proven: what was read of it is not weighed yet.",
  label: "What is in the can is not proven: only its label says what it is.",
  silent: "What is in the can is not proven: not even its label says what it is.",
};

/** Why it is handled as it is, and as what; undefined where it was identified and nothing worse is probable. */
export function treatmentSentence({ proof, harms: all, own = [] }: Treatment): string | undefined {
  const worse = harmWords(all);
  if (proof === "identified" && all.every((harm) => own.includes(harm))) return undefined;
  return worse === ""
    ? `${because[proof]} Nothing that it may still be burns, poisons or attacks aluminium.`
    : `${because[proof]} It is treated as the worst that is still probable: ${worse}.`;
}
