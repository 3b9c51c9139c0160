import { pairing } from "../shell/access.ts";
import { events } from "../shell/log-keeper.ts";
import { reportAddress, reportUnits, serverHasAll } from "./report-choice.ts";

/**
 * The report beside the walk, at a desk. It comes from the server: this page's own policy allows no
 * style but its files', and a frame made from a text here would inherit that and stand unstyled.
 */
export function ReportPreview({ trial }: { readonly trial: string }) {
  return (
    <section class="sheet report-preview" aria-labelledby="preview">
      <h3 id="preview">The report as it stands</h3>
      {serverHasAll.value ? (
        <iframe
          // Another log or other units are another page.
          key={`${events.value.length} ${reportUnits.value}`}
          src={reportAddress(trial, reportUnits.value)}
          title="The report as it stands"
          sandbox=""
          loading="lazy"
        />
      ) : (
        <p class="empty">
          {pairing.value
            ? "“Save the report” writes it; open the saved file to read it."
            : "The report is shown here once every entry has reached the server. “Save the report” works without it."}
        </p>
      )}
    </section>
  );
}
