import { z } from "zod";
import type { FluidId } from "../fluids/index.ts";
import { type Amount, type Fact, intervalOf, trusts } from "../service/index.ts";

/** A fact as it is shown: what, how much, whence, how far to trust it. */
export const factSchema = z.strictObject({
  fluid: z.string().describe("Whose fact it is"),
  what: z.string(),
  from: z.number(),
  to: z.number().describe("Same as from where the source gives one figure"),
  unit: z.string(),
  source: z.string(),
  trust: z
    .enum(trusts)
    .describe(
      "published; cross-checked: from memory and agreeing with arithmetic or a second text; memory: check the standard; shaky: shown, used in no computation",
    ),
  note: z.string().optional(),
});

/** One fact for an answer; nothing for a missing one. */
export function factView(
  fluid: FluidId,
  what: string,
  fact: Fact | undefined,
): z.infer<typeof factSchema>[] {
  if (!fact) return [];
  const { value, unit, source, trust, note } = fact;
  const { from, to } = intervalOf(value satisfies Amount);
  return [{ fluid, what, from, to, unit, source, trust, ...(note !== undefined && { note }) }];
}
