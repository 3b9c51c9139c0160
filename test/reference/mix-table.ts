import { readdirSync, readFileSync } from "node:fs";
import { fluid, isFluidId, mixture, type FluidId, type Mixture } from "../../src/fluids/index.ts";
import { columnOf, readTable, type Row, type Table } from "./read-table.ts";

const folder = new URL(".", import.meta.url);

/** Tables of another library for mixtures: `mix-sat-…` or `mix-flash-…`. */
export function mixTableNames(kind: "sat" | "flash"): readonly string[] {
  return readdirSync(folder)
    .filter((name) => name.startsWith(`mix-${kind}-`) && name.endsWith(".csv"))
    .sort();
}

/** A table with the mixture it was computed for. Pairs without parameters are quadratic there. */
export function readMixTable(name: string): Table & { readonly mix: Mixture } {
  const table = readTable(name);
  const columns = Object.keys(table.rows[0] ?? {}).filter((column) => column.startsWith("z_"));
  const ids = columns.map((column) => column.slice(2));
  return { ...table, mix: mixture(ids.map(known), "quadratic") };
}

function known(id: string): FluidId {
  if (!isFluidId(id)) throw new RangeError(`no fluid ${id}`);
  return id;
}

/** Mole fractions of a row: z, x or y; scaled to sum 1 exactly enough for the engine. */
export function fractionsOf(row: Row, which: "z" | "x" | "y", { ids }: Mixture): number[] {
  return ids.map((id) => columnOf(row, `${which}_${id}`));
}

/** What the tables' h and s exceed ours by: they keep the zero of the fluid files. Per component. */
export function zeroShift(id: FluidId): { readonly h: number; readonly s: number } {
  const stem = id.replaceAll(/[()]/g, "");
  const path = new URL(`../../data/fluids/${stem}.json`, import.meta.url);
  const file = JSON.parse(readFileSync(path, "utf8")) as {
    idealGas: {
      terms: { type: string; a1?: number; a2?: number }[];
      referenceOffset: { a1: number; a2: number };
    };
  };
  const lead = file.idealGas.terms.find(({ type }) => type === "lead");
  const { a1, a2 } = file.idealGas.referenceOffset;
  const { ideal, R, Tr } = fluid(id);
  return { h: R * Tr * ((lead?.a2 ?? 0) + a2 - ideal.a2), s: -R * ((lead?.a1 ?? 0) + a1 - ideal.a1) };
}
