import { expect } from "vitest";
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

/** A number of a row; a missing column is a fault of the test. */
export function columnOf(row: Row, column: string): number {
  const value = row[column];
  if (value === undefined || !Number.isFinite(value)) throw new RangeError(`no number ${column}`);
  return value;
}

/** Keeps the largest difference of each quantity. */
export class Worst {
  readonly found: Record<string, number> = {};

  note(quantity: string, difference: number): void {
    if (Number.isNaN(difference)) throw new RangeError(`${quantity} differs by NaN`);
    this.found[quantity] = Math.max(this.found[quantity] ?? 0, Math.abs(difference));
  }

  /** Every noted quantity must have a limit and stay below it. */
  expectBelow(limits: Readonly<Record<string, number>>): void {
    for (const [quantity, difference] of Object.entries(this.found)) {
      expect(difference, quantity).toBeLessThanOrEqual(limits[quantity] ?? Number.NaN);
    }
  }

  text(): string {
    const parts = Object.entries(this.found).map(([key, value]) => `${key} ${value.toExponential(1)}`);
    return parts.join(", ");
  }
}
