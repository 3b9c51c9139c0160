import { readFileSync } from "node:fs";
import { fluidIds, type FluidId } from "../../src/fluids/index.ts";

/** One row of a table, by column name; numbers are parsed, words are not kept. */
export type Row = Readonly<Record<string, number>>;

export interface Table {
  readonly rows: readonly Row[];
  readonly words: readonly Readonly<Record<string, string>>[];
}

/** Reads a table of another library: lines with # are its provenance, the next one its columns. */
export function readTable(name: string): Table {
  const text = readFileSync(new URL(name, import.meta.url), "utf8");
  const [head = "", ...body] = text.split("\n").filter((line) => line && !line.startsWith("#"));
  const columns = head.split(",");
  const words = body.map((line) => {
    const cells = line.split(",");
    return Object.fromEntries(columns.map((column, k) => [column, cells[k] ?? ""]));
  });
  const rows = words.map((word) =>
    Object.fromEntries(Object.entries(word).map(([key, cell]) => [key, Number(cell)])),
  );
  return { rows, words };
}

export const tableNames: readonly { readonly id: FluidId; readonly stem: string }[] = fluidIds.map(
  (id) => ({ id, stem: id.replaceAll(/[()]/g, "") }),
);
