import Papa from "papaparse";

/** A logger's file as lines and cells, before anybody says what its columns mean. */
export interface Table {
  readonly delimiter: ";" | "," | "\t";
  /** Line of the headings, from 1; 0 when the file has none. */
  readonly headingLine: number;
  /** Unique: a heading met twice gets " (2)". */
  readonly headings: readonly string[];
  readonly rows: readonly Row[];
  /** Lines above the headings, and later ones that begin like a comment. */
  readonly comments: readonly { readonly line: number; readonly raw: string }[];
}

export interface Row {
  /** From 1. */
  readonly line: number;
  readonly raw: string;
  readonly cells: readonly string[];
}

const delimiters = ["\t", ";", ","] as const;
const linesLookedAt = 60;
const numeric = /^[+\-−]?\d+([.,]\d+)?([eE][+-]?\d+)?$/u;

/** Byte-order mark off, any line ending, the empty line after the last one ignored. */
function linesOf(content: string): string[] {
  const lines = content.replace(/^\uFEFF/u, "").split(/\r\n|\n|\r/u);
  if (lines.at(-1) === "") lines.pop();
  return lines;
}

/** Quoted cells need a real parser; the many plain lines do not, and a stray quote spoils one line only. */
function cellsOf(line: string, delimiter: string): string[] {
  const cells = line.includes('"')
    ? (Papa.parse(line, { delimiter }).data[0] ?? [line])
    : line.split(delimiter);
  return cells.map((cell) => cell.trim());
}

const isComment = (line: string): boolean => /^\s*(#|\/\/)/u.test(line);

function mostCommonWidth(widths: readonly number[]): { width: number; count: number } {
  const counts = new Map<number, number>();
  for (const width of widths) if (width > 1) counts.set(width, (counts.get(width) ?? 0) + 1);
  let best = { width: 1, count: 0 };
  for (const [width, count] of counts) if (count > best.count) best = { width, count };
  return best;
}

/** The delimiter that cuts most lines into one number of cells; a comma only if nothing else does as well. */
function delimiterOf(lines: readonly string[]): { delimiter: Table["delimiter"]; width: number } {
  let best: { delimiter: Table["delimiter"]; width: number; count: number } = {
    delimiter: ",",
    width: 1,
    count: 0,
  };
  const sample = lines.filter((line) => line.trim() !== "").slice(0, linesLookedAt);
  for (const delimiter of delimiters) {
    const found = mostCommonWidth(sample.map((line) => cellsOf(line, delimiter).length));
    if (found.count > best.count) best = { delimiter, ...found };
  }
  return best;
}

function unique(headings: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return headings.map((heading, i) => {
    const name = heading === "" ? `column ${i + 1}` : heading;
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    return count === 1 ? name : `${name} (${count})`;
  });
}

/** Cuts a file into a table. Never throws: a file that is no table gives one column and its lines. */
export function tableOf(content: string): Table {
  const lines = linesOf(content);
  const { delimiter, width } = delimiterOf(lines.filter((line) => !isComment(line)));
  const all = lines.map((raw, i): Row => ({ line: i + 1, raw, cells: cellsOf(raw, delimiter) }));
  const first = all.findIndex(({ raw, cells }) => !isComment(raw) && cells.length === width);
  const words = all[first]?.cells.filter((cell) => cell !== "" && !numeric.test(cell)).length ?? 0;
  // Data lines have at most a clock that is no number; headings are words in most of their cells.
  const hasHeadings = first >= 0 && words > width / 2;
  const start = hasHeadings ? first + 1 : Math.max(first, 0);
  const names = hasHeadings ? (all[first]?.cells ?? []) : Array<string>(width).fill("");
  const isAside = (row: Row) => row.line <= (hasHeadings ? first : start) || isComment(row.raw);
  return {
    delimiter,
    headingLine: hasHeadings ? first + 1 : 0,
    headings: unique(names),
    rows: all.slice(start).filter(({ raw }) => !isComment(raw)),
    comments: all.filter(isAside).map(({ line, raw }) => ({ line, raw })),
  };
}
