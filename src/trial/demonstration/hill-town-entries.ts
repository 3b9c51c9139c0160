import type { BodyOf } from "../events.ts";
import type { InventedLog } from "./log.ts";

/** Short forms in which the invented trial is written down. */
export const g = (value: number) => ({ value, unit: "g" });
export const kg = (value: number) => ({ value, unit: "kg" });
export const psig = (value: number) => ({ value, unit: "psig" });
export const celsius = (value: number) => ({ value, unit: "°C" });
export const percent = (value: number) => ({ value, unit: "%" });
export const millilitres = (value: number) => ({ value, unit: "mL" });
export const micron = (value: number) => ({ value, unit: "micron" });

export type Reading = BodyOf<"reading-taken">;
export const r134a = { kind: "fluid", fluid: "R134a" } as const;

type At = Pick<Reading, "stage"> & Partial<Pick<Reading, "round" | "run" | "vessel" | "when">>;

/** Writes a steady reading down. */
export function read(
  log: InventedLog,
  at: string,
  where: At,
  quantity: Reading["quantity"],
  value: Reading["value"],
  instrument?: string,
): void {
  const body = { ...where, quantity, value, form: "steady" as const };
  log.add(at, "reading-taken", instrument === undefined ? body : { ...body, instrument });
}

/** One column of a logger's file. */
export const column = (
  name: string,
  quantity: Reading["quantity"],
  unit: string,
  instrument?: string,
): BodyOf<"trace-imported">["mapping"]["columns"][number] => ({
  column: name,
  quantity,
  unit,
  ...(instrument !== undefined && { instrument }),
});
