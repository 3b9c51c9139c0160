import { z } from "zod";
import published from "../../data/facts/static-pressure.json";

const meaning = z.strictObject({ cause: z.string(), source: z.string(), says: z.string() });
const fileSchema = z.strictObject({
  schema: z.literal(1),
  title: z.string(),
  sources: z.record(z.string(), z.string()),
  transcribed: z.string(),
  meanings: z.strictObject({
    within: z.array(meaning),
    higher: z.array(meaning),
    lower: z.array(meaning),
    undecided: z.array(meaning),
  }),
});

const file = fileSchema.parse(published);

/** Where a static pressure stands against its band. */
export type StaticVerdict = keyof typeof file.meanings;

/** One thing that a verdict can mean, with its source in full. */
export interface StaticMeaning {
  readonly cause: string;
  readonly says: string;
  readonly source: string;
}

/**
 * What a verdict can mean: possibilities, not findings. Name a fault only on two independent signs.
 * @throws RangeError if the data file names a source that it does not list.
 */
export function staticMeanings(verdict: StaticVerdict): readonly StaticMeaning[] {
  return file.meanings[verdict].map(({ cause, says, source }) => {
    const text = file.sources[source];
    if (text === undefined) throw new RangeError(`static pressure: no source "${source}"`);
    return { cause, says, source: text };
  });
}
