/**
 * The written order of a log: by instant, then by id. Ids are UUIDv7, so the tie-break is itself
 * roughly by time, and every machine that holds the same events finds the same order.
 */
export interface Stamped {
  readonly id: string;
  readonly when: string;
}

/** Milliseconds since 1970 of an ISO instant. @throws RangeError when it is none: parse first. */
export function instantOf(iso: string): number {
  const ms = Date.parse(iso);
  if (!Number.isFinite(ms)) throw new RangeError(`"${iso}" is not an instant`);
  return ms;
}

/** Negative when `a` comes first; zero only for the same id at the same instant. */
export function inOrder(a: Stamped, b: Stamped): number {
  const byTime = instantOf(a.when) - instantOf(b.when);
  if (byTime !== 0) return byTime;
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/** Instants of this one form stand in the order of their texts: 2026-06-14T08:41:00.000Z. */
const isPlain = (when: string): boolean =>
  when.length === 24 && when[19] === "." && when[23] === "Z";

function standsBefore(a: Stamped, b: Stamped): boolean {
  if (!isPlain(a.when) || !isPlain(b.when)) return inOrder(a, b) <= 0;
  return a.when < b.when || (a.when === b.when && a.id <= b.id);
}

/** A copy in the written order. Each instant is read once, and what stands in order is not sorted again. */
export function sorted<T extends Stamped>(things: readonly T[]): T[] {
  let standing = 1;
  for (; standing < things.length; standing++) {
    if (!standsBefore(things[standing - 1] as T, things[standing] as T)) break;
  }
  if (standing >= things.length) return [...things];
  const times = Float64Array.from(things, ({ when }) => instantOf(when));
  const precedes = (a: number, b: number): number => {
    const byTime = (times[a] ?? 0) - (times[b] ?? 0);
    if (byTime !== 0) return byTime;
    const [x, y] = [things[a]?.id ?? "", things[b]?.id ?? ""];
    return x < y ? -1 : x > y ? 1 : 0;
  };
  return Array.from(things, (_, i) => i)
    .sort(precedes)
    .map((i) => things[i] as T);
}

/** JSON with sorted keys: equal for equal contents, whatever the order of writing. */
export function canonicalText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalText).join(",")}]`;
  if (value === undefined) return "null";
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const fields = Object.entries(value)
    .filter(([, field]) => field !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, field]) => `${JSON.stringify(key)}:${canonicalText(field)}`);
  return `{${fields.join(",")}}`;
}
