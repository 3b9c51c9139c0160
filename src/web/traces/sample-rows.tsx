import type { Inspection } from "../../trial/index.ts";

/** The first rows as they stand in the file, so that a column can be told by its numbers. */
export function SampleRows({ inspection }: { readonly inspection: Inspection }) {
  return (
    <div class="table-room" role="region" aria-label="First rows of the file" tabIndex={0}>
      <table class="table">
        <caption>First rows, as they came</caption>
        <thead>
          <tr>
            {inspection.headings.map((heading) => (
              <th scope="col" key={heading}>
                {heading}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {inspection.sample.slice(0, 4).map((row, r) => (
            <tr key={r}>
              {row.map((cell, c) => (
                <td key={c}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
