import type { ComponentChildren } from "preact";

/** A companion table: what the picture shows, as numbers. */
export interface PictureTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

interface DrawingProps {
  /** Unique on the page; the text alternative is named by it. */
  readonly id: string;
  readonly title: string;
  /** What a person sees who looks at the picture, in words. */
  readonly description: string;
  readonly width: number;
  readonly height: number;
  readonly children: ComponentChildren;
}

/** The drawing itself: an image with a name and a description, drawn one to one at its width. */
export const Drawing = ({ id, title, description, width, height, children }: DrawingProps) => (
  <svg
    class="pic-drawing"
    role="img"
    aria-labelledby={`${id}-title ${id}-desc`}
    width={width}
    height={height}
    viewBox={`0 0 ${width} ${height}`}
  >
    <title id={`${id}-title`}>{title}</title>
    <desc id={`${id}-desc`}>{description}</desc>
    {children}
  </svg>
);

/** A drawing under the title that states its finding, with what belongs below it. */
export const Picture = ({ kind, below, ...drawing }: PictureProps) => (
  <figure class={`pic pic-${kind}`}>
    <figcaption>
      <span class="pic-title">{drawing.title}</span>
    </figcaption>
    <Drawing {...drawing} />
    {below}
  </figure>
);

interface PictureProps extends DrawingProps {
  readonly kind:
    | "mass"
    | "trace"
    | "comparison"
    | "hold"
    | "phase"
    | "pressure"
    | "withdrawal"
    | "vessel"
    | "sweep"
    | "charge"
    | "leak";
  readonly below?: ComponentChildren;
}

/** From so many columns on, a table is told row by row on a phone. */
const STACKS = 4;
/** Up to so many rows a table is never cut by the end of a page. */
const SHORT = 9;

function tableClass({ head, rows }: PictureTable): string {
  const stacks = head.length >= STACKS ? "stacks" : "";
  return `${stacks} ${rows.length <= SHORT ? "short" : ""}`.trim();
}

/**
 * The table behind a picture. First column is the row's name; the others are numbers or short texts.
 * Roles are spelled out because a style sheet that stacks the cells would take them away.
 */
export const DataTable = (table: PictureTable) => (
  <div class="table-room" role="group" aria-label={table.caption} tabIndex={0}>
    <table class={tableClass(table)} role="table">
      <caption>{table.caption}</caption>
      <thead role="rowgroup">
        <tr role="row">
          {table.head.map((text, i) => (
            <th scope="col" role="columnheader" key={i}>
              {text}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {table.rows.map((row, r) => (
          <TableRow key={r} row={row} head={table.head} />
        ))}
      </tbody>
    </table>
  </div>
);

const TableRow = ({ row, head }: { row: readonly string[]; head: readonly string[] }) => (
  <tr role="row">
    {row.map((text, c) =>
      c === 0 ? (
        <th key={c} scope="row" role="rowheader">
          {text}
        </th>
      ) : (
        <td key={c} role="cell" data-label={head[c]}>
          <span>{text}</span>
        </td>
      ),
    )}
  </tr>
);

/** The same, folded away until somebody doubts the picture. */
export const FoldedTable = ({ table, summary }: { table: PictureTable; summary?: string }) => (
  <details class="numbers">
    <summary>{summary ?? "The numbers"}</summary>
    <DataTable {...table} />
  </details>
);
