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

/** The table behind a picture. First column is the row's name; the others are numbers or short texts. */
export const DataTable = ({ caption, head, rows }: PictureTable) => (
  <div class="table-room" role="region" aria-label={caption} tabIndex={0}>
    <table>
      <caption>{caption}</caption>
      <thead>
        <tr>
          {head.map((text, i) => (
            <th scope="col" key={i}>
              {text}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, r) => (
          <tr key={r}>
            {row.map((text, c) =>
              c === 0 ? <th scope="row">{text}</th> : <td key={c}>{text}</td>,
            )}
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

/** The same, folded away until somebody doubts the picture. */
export const FoldedTable = ({ table, summary }: { table: PictureTable; summary?: string }) => (
  <details class="numbers">
    <summary>{summary ?? "The numbers"}</summary>
    <DataTable {...table} />
  </details>
);
