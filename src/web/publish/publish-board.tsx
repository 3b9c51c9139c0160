import { useState } from "preact/hooks";
import { renderView, type UnitSystem } from "../../report/index.ts";
import { exportTrial } from "../../trial/index.ts";
import { Segments } from "../fields/segments.tsx";
import { events, safety, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { fileNameOf, saveFile } from "./save-file.ts";

/** The report and the trial's own file: the answer, the evidence and the means to work it out again. */
export function PublishBoard({ trial }: { readonly trial: string }) {
  const [system, setSystem] = useState<UnitSystem>("as-typed");
  const title = view.value.opened?.title ?? "trial";
  const report = (): string =>
    renderView(
      view.value,
      { units: system, generatedAt: new Date().toISOString() },
      events.value.length,
    );
  return (
    <section class="sheet publish">
      <h2>The report</h2>
      <p>
        One file that opens in any browser without a network: the question, the ledger, the readings
        with their verdicts, the comparison. It is made on this device, from the log as it stands
        now.
      </p>
      <Segments
        name="report-units"
        label="Units of the report"
        value={system}
        options={[
          { value: "as-typed", label: "As typed" },
          { value: "us", label: "US" },
          { value: "si", label: "SI" },
        ]}
        onChange={(value) => {
          setSystem(value as UnitSystem);
        }}
      />
      <div class="publish-acts">
        <button
          type="button"
          class="button button-main"
          onClick={() => {
            saveFile(fileNameOf(title, "html"), report(), "text/html;charset=utf-8");
            say("The report is in your downloads.");
          }}
        >
          Save the report
        </button>
        {safety.value.server === "reached" && safety.value.waiting === 0 && (
          <a
            class="button"
            href={`/api/trials/${trial}/report?units=${system}`}
            target="_blank"
            rel="noreferrer"
          >
            Open the report
          </a>
        )}
      </div>
      <h2>The trial file</h2>
      <p>
        The whole log, first entries and corrections alike. Imported elsewhere it gives the same
        ledger and the same report.
      </p>
      <button
        type="button"
        class="button"
        onClick={() => {
          const file = exportTrial(events.value);
          saveFile(fileNameOf(title, "coldproof.json"), JSON.stringify(file), "application/json");
          say("The trial file is in your downloads.");
        }}
      >
        Export the trial file
      </button>
    </section>
  );
}
