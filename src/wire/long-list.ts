import { type JsonOutcome, parseJson } from "./json.ts";

/** Items of a list, and characters of its text, that are read at a time. */
const mostItems = 500;
const mostCharacters = 500_000;

interface Piece {
  readonly text: string;
  readonly items: number;
}

/**
 * `parseJson` of an object whose last field is a long list, in slices: yields after each, so that a caller can let others have
 * their turn. A text of another form is read in one go. The outcome is always that of `parseJson`.
 *
 * @param list name of the field.
 */
export function* parseLongList(
  text: string,
  field: string,
  list: string,
): Generator<void, JsonOutcome> {
  const from = listIn(text, list);
  if (from === undefined) return parseJson(text, field);
  const { pieces, end } = yield* piecesOf(text, from);
  const rest = text.slice(end);
  const frame = /^\]\s*\}\s*$/.test(rest)
    ? parseJson(text.slice(0, from) + rest, field)
    : undefined;
  if (frame?.kind !== "json") return parseJson(text, field);
  const all: unknown[] = [];
  for (const { text: piece, items } of pieces) {
    // As deep as it stands in the whole.
    const read = parseJson(`[[${piece}]]`, field);
    const [values = []] = read.kind === "json" ? (read.value as unknown[][]) : [];
    // Fewer where nothing stands between two commas.
    if (values.length !== items) return parseJson(text, field);
    for (const value of values) all.push(value);
    yield;
  }
  return { kind: "json", value: { ...(frame.value as object), [list]: all } };
}

/** Where the list's first item begins, when nothing nested stands before it. */
function listIn(text: string, list: string): number | undefined {
  const head = new RegExp(`^\\s*\\{[^[\\]{}]*"${list}"\\s*:\\s*\\[`).exec(text.slice(0, 10_000));
  return head?.[0].length;
}

/** The list from its first item on, cut between items, and where it ends. */
function* piecesOf(text: string, from: number): Generator<void, { pieces: Piece[]; end: number }> {
  const pieces: Piece[] = [];
  let [begun, items, depth, quoted] = [from, 0, 0, false];
  const cut = (at: number) => {
    pieces.push({ text: text.slice(begun, at), items: items + 1 });
    [begun, items] = [at + 1, 0];
  };
  let i = from;
  for (; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (quoted) {
      if (c === 0x5c) i++;
      else if (c === 0x22) quoted = false;
    } else if (c === 0x22) quoted = true;
    else if (c === 0x5b || c === 0x7b) depth++;
    else if (c === 0x5d || c === 0x7d) {
      if (depth-- === 0) break;
    } else if (c === 0x2c && depth === 0) {
      items++;
      if (items < mostItems && i - begun < mostCharacters) continue;
      items--;
      cut(i);
      yield;
    }
  }
  // An empty list has no item.
  if (pieces.length > 0 || text.slice(begun, i).trim() !== "") cut(i);
  return { pieces, end: i };
}
