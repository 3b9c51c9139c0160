/** One line from an instrument, as it is sent on. */
export interface Sample {
  readonly at: string;
  readonly values: readonly (number | null)[];
}

export type ReadSample =
  | { readonly kind: "sample"; readonly sample: Sample }
  /** Nothing to send: an empty line, a comment, headings. */
  | { readonly kind: "aside" }
  | { readonly kind: "invalid"; readonly why: string };

const aside = { kind: "aside" } as const;
const invalid = (why: string): ReadSample => ({ kind: "invalid", why });

/**
 * Reads a line: JSON (`{"at": …, "values": […]}` or a plain list of values) or cells divided by
 * commas, semicolons or tabs, the first of which may be a time. Without a time it is `now`.
 *
 * @param first  Is it the first line? Then cells that are no numbers are headings.
 * @param now    ISO instant.
 */
export function sampleOf(line: string, first: boolean, now: string): ReadSample {
  const text = line.trim();
  if (text === "" || text.startsWith("#")) return aside;
  return /^[[{]/.test(text) ? fromJson(text, now) : fromCells(text, first, now);
}

function fromJson(text: string, now: string): ReadSample {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return invalid("it is no JSON");
  }
  if (Array.isArray(json)) return whole(now, json);
  const { at = now, values } = json as { readonly at?: unknown; readonly values?: unknown };
  if (typeof at !== "string") return invalid('"at" must be a date and time');
  return Array.isArray(values) ? whole(at, values) : invalid('"values" must be a list');
}

function whole(at: string, values: readonly unknown[]): ReadSample {
  const instant = instantOf(at);
  if (instant === undefined) return invalid(`"${at}" is no date and time with its zone`);
  const isSound = (value: unknown): value is number | null =>
    value === null || (typeof value === "number" && Number.isFinite(value));
  if (!values.every(isSound)) return invalid("a value is a number, or null");
  return { kind: "sample", sample: { at: instant, values } };
}

/** A comma divides cells unless a semicolon or a tab does; then it is a decimal mark. */
function fromCells(text: string, first: boolean, now: string): ReadSample {
  const mark = /[;\t]/.exec(text)?.[0] ?? ",";
  const cells = text.split(mark).map((cell) => cell.trim().replace(/^"(.*)"$/, "$1"));
  const at = instantOf(cells[0] ?? "");
  const values = (at === undefined ? cells : cells.slice(1)).map((cell) => numberOf(cell, mark));
  if (values.every((value) => value !== undefined)) return whole(at ?? now, values);
  return first ? aside : invalid("a cell is neither a number nor empty");
}

function numberOf(cell: string, mark: string): number | null | undefined {
  if (cell === "") return null;
  const value = Number(mark === "," ? cell : cell.replace(",", "."));
  return Number.isFinite(value) ? value : undefined;
}

/** With its zone: without one nobody can tell which hour it was. */
function instantOf(cell: string): string | undefined {
  if (!/^\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d(\.\d+)?)?\s*(Z|[+-]\d\d:?\d\d)$/.test(cell))
    return undefined;
  const ms = Date.parse(cell);
  return Number.isFinite(ms) ? new Date(ms).toISOString() : undefined;
}
