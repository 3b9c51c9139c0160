import { z } from "zod";
import { parseNumber } from "../units/index.ts";
import { type Field, type Limits, unusable } from "./field.ts";

const LONGEST_TEXT = 40;

/** A plain number whose unit stands in its description: there is no other that people type. */
export function figure(says: string, unit: string, { from, to }: Limits): Field<number> {
  return {
    schema: z.union([z.number(), z.string().max(LONGEST_TEXT)]).describe(`${says}. ${unit}.`),
    required: true,
    read(raw, name) {
      const parsed = typeof raw === "string" ? parseNumber(raw) : undefined;
      if (parsed?.kind === "invalid") return unusable(name, raw, parsed.accepted);
      const value = parsed ? parsed.value : Number(raw);
      return value >= from && value <= to
        ? { kind: "value", value }
        : unusable(name, raw, `${from} to ${to}, ${unit}`);
    },
  };
}
