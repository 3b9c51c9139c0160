import type { BodyOf } from "../events.ts";

/**
 * A logger's clock. It is read as it stands, without a time zone: differences within a file matter,
 * and the entry around the file says when it happened.
 */
export type TimeForm = BodyOf<"trace-imported">["mapping"]["time"]["form"];

const iso =
  /^(\d{4})-(\d{2})-(\d{2})[T ](\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?\s*(?:Z|[+-]\d{2}:?\d{2})?$/u;
const local =
  /^(\d{1,2})[./-](\d{1,2})[./-](\d{4}|\d{2}),?\s+(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?\s*(am|pm)?$/iu;
const sinceStart = /^(?:(\d+):)?(\d{1,3}):(\d{2}(?:[.,]\d+)?)$/u;
const plain = /^\d+(?:[.,]\d+)?$/u;

const number = (text: string | undefined): number => Number((text ?? "0").replace(",", "."));

/** Seconds since 1970 of a wall clock; undefined for the 31st of April and its like. */
function wallClock(
  [year, month, day]: readonly [number, number, number],
  [hour, minute, second]: readonly [number, number, number],
): number | undefined {
  const date = new Date(Date.UTC(year, month - 1, day));
  const real = date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
  if (!real || hour > 23 || minute > 59 || second >= 61) return undefined;
  return date.getTime() / 1000 + hour * 3600 + minute * 60 + second;
}

/** 12-hour clocks: 12 am is midnight, 12 pm noon. */
function hourOf(text: string | undefined, half: string | undefined): number {
  const hour = number(text);
  if (half === undefined) return hour;
  if (hour < 1 || hour > 12) return 99;
  return (hour % 12) + (half.toLowerCase() === "pm" ? 12 : 0);
}

/**
 * Seconds of one time cell; undefined when it is no time of that form.
 *
 * @param unitSeconds  Seconds per step of a plain elapsed number.
 */
export function secondsOf(cell: string, form: TimeForm, unitSeconds: number): number | undefined {
  if (form === "elapsed") {
    if (plain.test(cell)) return number(cell) * unitSeconds;
    const [, hours, minutes, seconds] = sinceStart.exec(cell) ?? [];
    if (minutes === undefined) return undefined;
    return number(hours) * 3600 + number(minutes) * 60 + number(seconds);
  }
  if (form === "iso") {
    const [, year, month, day, hour, minute, second] = iso.exec(cell) ?? [];
    if (year === undefined) return undefined;
    return wallClock(
      [number(year), number(month), number(day)],
      [number(hour), number(minute), number(second)],
    );
  }
  const [, a, b, year, hour, minute, second, half] = local.exec(cell) ?? [];
  if (year === undefined) return undefined;
  const [day, month] = form === "day-first" ? [number(a), number(b)] : [number(b), number(a)];
  const full = year.length === 2 ? 2000 + number(year) : number(year);
  return wallClock([full, month, day], [hourOf(hour, half), number(minute), number(second)]);
}

/** The forms that read every one of these cells, likeliest first. */
export function formsOf(cells: readonly string[]): readonly TimeForm[] {
  const forms: readonly TimeForm[] = ["iso", "day-first", "month-first", "elapsed"];
  return forms.filter(
    (form) => cells.length > 0 && cells.every((cell) => secondsOf(cell, form, 1) !== undefined),
  );
}

/** ISO wall clock without a zone, whole milliseconds, as `run-recorded` takes it. */
export const clockText = (seconds: number): string =>
  new Date(Math.round(seconds * 1000)).toISOString().replace(/(\.000)?Z$/u, "");

/**
 * `Date.parse` for many instants that follow one another: of those written as 2026-06-14T08:41:00.000Z, only
 * the seconds are read again within a minute.
 */
export function instantReader(): (at: string) => number {
  let minute = "";
  let start = 0;
  const digit = (at: string, i: number): number => at.charCodeAt(i) - 48;
  return (at) => {
    const isPlain = at.length === 24 && at[19] === "." && at[23] === "Z";
    if (!isPlain) return Date.parse(at);
    const seconds = 10 * digit(at, 17) + digit(at, 18);
    const ms = 1000 * seconds + 100 * digit(at, 20) + 10 * digit(at, 21) + digit(at, 22);
    if (minute === "" || !at.startsWith(minute)) {
      minute = at.slice(0, 17);
      start = Date.parse(at) - ms;
    }
    return start + ms;
  };
}
