import { renderView, type UnitSystem } from "../../report/index.ts";
import { exportTrial } from "../../trial/index.ts";
import { Segments } from "../fields/segments.tsx";
import { events, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { reportAddress, reportUnits, serverHasAll } from "./report-choice.ts";
import { fileNameOf, saveFile } from "./save-file.ts";

interface Props {
  readonly trial: string;
}

/** The report and the trial's own file: the answer, the evidence and the means to work it out again. */
export const PublishBoard = ({ trial }: Props) => (
  <section class="sheet publish">
    <h2>The report</h2>
    <p>
      One file that opens in any browser without a network: the question, the ledger, the readings
      with their verdicts, the comparison. It is made on this device, from the log as it stands now.
    </p>
    <Segments
      name="report-units"
      label="Units of the report"
      value={reportUnits.value}
      options={[
        { value: "as-typed", label: "As typed" },
        { value: "us", label: "US" },
        { value: "si", label: "SI" },
      ]}
      onChange={(value) => {
        reportUnits.value = value as UnitSystem;
      }}
    />
    <ReportActs trial={trial} />
    <h2>The trial file</h2>
    <p>
      The whole log, first entries and corrections alike. Imported elsewhere it gives the same
      ledger and the same report.
    </p>
    <button type="button" class="button" onClick={saveTrialFile}>
      Export the trial file
    </button>
  </section>
);

const ReportActs = ({ trial }: Props) => (
  <div class="publish-acts">
    <button type="button" class="button button-main" onClick={saveReport}>
      Save the report
    </button>
    {serverHasAll.value && (
      <a
        class="button"
        href={reportAddress(trial, reportUnits.value)}
        target="_blank"
        rel="noreferrer"
      >
        Open the report
      </a>
    )}
  </div>
);

const title = (): string => view.value.opened?.title ?? "trial";

function saveReport(): void {
  const options = { units: reportUnits.value, generatedAt: new Date().toISOString() };
  const report = renderView(view.value, options, events.value.length);
  saveFile(fileNameOf(title(), "html"), report, "text/html;charset=utf-8");
  say("The report is in your downloads.");
}

function saveTrialFile(): void {
  const file = JSON.stringify(exportTrial(events.value));
  saveFile(fileNameOf(title(), "coldproof.json"), file, "application/json");
  say("The trial file is in your downloads.");
}
