import { z } from "zod";
import { type Field, unusable } from "./field.ts";

/** A text of people's own words. */
export function textField(says: string, longest: number): Field<string> {
  return {
    schema: z.string().max(longest).describe(says),
    required: true,
    read(raw, name) {
      const text = String(raw).trim();
      return text === ""
        ? unusable(name, raw, `a text of 1 to ${longest} letters`)
        : { kind: "value", value: text };
    },
  };
}

/** Yes or no. */
export const flag = (says: string): Field<boolean> => ({
  schema: z.boolean().describe(says),
  required: true,
  read: (raw) => ({ kind: "value", value: raw === true }),
});
