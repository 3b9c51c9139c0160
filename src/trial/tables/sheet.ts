import Papa from "papaparse";

export type Cell = string | number | undefined;

/** A column of a table with what a stranger has to know about it. */
export interface Column<Row> {
  readonly name: string;
  /** What it holds, its unit when it is a number, and what an empty cell means. */
  readonly says: string;
  readonly of: (row: Row) => Cell;
}

/** A spreadsheet would take these beginnings for a formula. */
const formula = /^[=+\-@\t\r]/;

/** Free text as a spreadsheet shows it and never runs it. */
export const plainText = (text: string | undefined): string | undefined =>
  text !== undefined && formula.test(text) ? `'${text}` : text;

/** RFC 4180 with a head line and CRLF; numbers as shortest decimals that give the same bits again. */
export const sheetText = <Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string =>
  `${Papa.unparse([columns.map(({ name }) => name), ...rows.map((row) => columns.map(({ of }) => of(row)))])}\r\n`;
