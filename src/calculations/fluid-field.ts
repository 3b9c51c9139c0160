import { z } from "zod";
import { type FluidId, fluidIds, fluidInfo } from "../fluids/index.ts";
import { type Field, unusable } from "./field.ts";

/** Case, dashes, spaces and brackets do not tell fluids apart: "r-134a" is R134a. */
const plain = (name: string): string => name.toLowerCase().replace(/[\s\-‐–()]/gu, "");

const byName = new Map<string, FluidId>(fluidIds.map((id) => [plain(id), id]));

/**
 * The fluid that a name means; `undefined` if none.
 * "r134a", "R-134a" and "R1234ze(E)" or "r1234zee" are understood.
 */
export const findFluid = (name: string): FluidId | undefined => byName.get(plain(name));

/** A pure fluid by its designation. */
export const fluidField: Field<FluidId> = {
  schema: z
    .string()
    .max(40)
    .describe(
      `Pure fluid by its designation, in any case, with or without dash: ${fluidIds.join(", ")}.`,
    ),
  required: true,
  read(raw, name) {
    const id = typeof raw === "string" ? findFluid(raw) : undefined;
    return id === undefined
      ? unusable(name, raw, `a pure fluid out of: ${fluidIds.join(", ")}`)
      : { kind: "value", value: id };
  },
};

/** Where the fluid's equation was published, in full. */
export const fluidSource = (id: FluidId): string => `${id}: ${fluidInfo(id).source}`;
