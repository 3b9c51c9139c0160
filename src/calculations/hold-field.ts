import { z } from "zod";
import { issue, type Issue } from "./answer.ts";
import { type Field, pressure, quantity, unusable } from "./field.ts";

/** Rows of a hold in SI. */
export interface HoldValue {
  readonly t: readonly number[];
  readonly p: readonly number[];
  /** K; present when every row has one. */
  readonly T: readonly number[] | undefined;
}

const amount = z.union([z.number(), z.string().max(80)]);
const row = z.strictObject({ t: amount, p: amount, T: amount.optional() });

const FEWEST = 4;
const MOST = 5000;
const TEXT = 200_000;

const time = quantity("duration", "Time", { from: -1e7, to: 1e7 });
const level = pressure("Pressure");
const warmth = quantity("temperature", "Temperature", { from: 223.15, to: 373.15 });

const says = `The hold: ${FEWEST} to ${MOST} rows {t, p, T?} with time (number in s, or text such as "2.5 min"), pressure (number in Pa absolute, or text such as "485 micron") and, if logged, temperature; or a text of such rows, "0 min, 405 micron" a line`;

/** Lines "0 min, 405 micron[, 24 °C]" as rows. */
const rowsOf = (text: string): z.infer<typeof row>[] =>
  text
    .split(/\r?\n/)
    .filter((line) => line.trim() !== "")
    .map((line) => {
      const [t = "", p = "", T] = line.split(/[,;\t]/).map((cell) => cell.trim());
      return { t, p, ...(T !== undefined && T !== "" && { T }) };
    });

type Read = { readonly values: number[]; readonly issues: readonly Issue[] };

function column<T>(
  raw: readonly unknown[],
  name: string,
  read: (one: unknown, name: string) => ReturnType<Field<T>["read"]>,
  value: (one: T) => number,
): Read {
  const outcomes = raw.map((one, i) => read(one, `trace[${i}].${name}`));
  const issues = outcomes.flatMap((one) => (one.kind === "unusable" ? one.issues : []));
  const values = outcomes.flatMap((one) => (one.kind === "value" ? [value(one.value)] : []));
  return { values, issues: issues.slice(0, 10) };
}

/** A vacuum hold as rows or as text; see its schema. */
export const holdField: Field<HoldValue> = {
  schema: z.union([z.array(row).min(FEWEST).max(MOST), z.string().max(TEXT)]).describe(`${says}.`),
  required: true,
  read(raw, name, air) {
    const rows = typeof raw === "string" ? rowsOf(raw) : (raw as z.infer<typeof row>[]);
    if (rows.length < FEWEST || rows.length > MOST) {
      return unusable(name, `${rows.length} rows`, `${FEWEST} to ${MOST} rows`);
    }
    const t = column(
      rows.map((one) => one.t),
      "t",
      (one, at) => time.read(one, at, air),
      (one) => one,
    );
    const p = column(
      rows.map((one) => one.p),
      "p",
      (one, at) => level.read(one, at, air),
      (one) => one.p,
    );
    const warm = rows.flatMap((one) => (one.T === undefined ? [] : [one.T]));
    const T = column(
      warm,
      "T",
      (one, at) => warmth.read(one, at, air),
      (one) => one,
    );
    const issues = [...t.issues, ...p.issues, ...T.issues];
    if (issues.length > 0) return { kind: "unusable", issues };
    const wrong = disorder(t.values, p.values, air);
    if (wrong) return { kind: "unusable", issues: [wrong] };
    const whole = T.values.length === rows.length ? T.values : undefined;
    return { kind: "value", value: { t: t.values, p: p.values, T: whole } };
  },
};

/** Share of the local air up to which air streams in unhindered by what is inside: choked or nearly so. */
export const HIGHEST_SHARE = 0.2;

function disorder(t: readonly number[], p: readonly number[], air: number): Issue | undefined {
  const back = t.findIndex((one, i) => i > 0 && one <= (t[i - 1] ?? -Infinity));
  if (back >= 0) return issue(`trace[${back}].t`, t[back], "times that rise from row to row");
  const bad = p.findIndex((one) => !(one > 0.1 && one < HIGHEST_SHARE * air));
  if (bad < 0) return undefined;
  const words = `0.1 Pa to a fifth of the local air (${(HIGHEST_SHARE * air).toFixed(0)} Pa); a hold that rises past it leaks grossly: leave the rows above out`;
  return issue(`trace[${bad}].p`, p[bad], words);
}
