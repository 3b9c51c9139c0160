import { useState } from "preact/hooks";
import type { UnitSystem } from "../../report/index.ts";
import { dataTables, exportTrial, project, type StoredEvent } from "../../trial/index.ts";
import { writtenReport } from "../engine/report-work.ts";
import { Segments } from "../fields/segments.tsx";
import { view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { deviceKey } from "./device-key.ts";
import { leaving, redacting } from "./leaving.ts";
import { RedactPart } from "./redact-part.tsx";
import { reportAddress, reportUnits, serverHasAll } from "./report-choice.ts";
import { fileNameOf, saveFile } from "./save-file.ts";
import { SignPart } from "./sign-part.tsx";

interface Props {
  readonly trial: string;
}

/** The report and the trial's own files: the answer, the evidence and the means to work it out again. */
export const PublishBoard = ({ trial }: Props) => (
  <section class="sheet publish">
    <h2>The report</h2>
    <p>
      One file that opens in any browser without a network and carries the trial’s log. Whoever
      drops it on the first page of this app sees every number worked out again, and whether
      anything was changed. It is made on this device, from the log as it stands now.
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
    <RedactPart />
    <SignPart />
    <ReportActs trial={trial} />
    <h2>The trial file</h2>
    <p>
      The whole log, first entries and corrections alike. Imported elsewhere it gives the same
      ledger and the same report.
    </p>
    <button type="button" class="button" onClick={saveTrialFile}>
      Export the trial file
    </button>
    <h2>Tables</h2>
    <p>
      For a spreadsheet: the log (which can be imported again), readings, figures of runs and
      movements of mass, in SI, and a dictionary of every column.
    </p>
    <button type="button" class="button" onClick={saveTables}>
      Save five tables
    </button>
  </section>
);

function ReportActs({ trial }: Props) {
  const [busy, setBusy] = useState(false);
  const save = async (): Promise<void> => {
    setBusy(true);
    await saveReport();
    setBusy(false);
  };
  return (
    <div class="publish-acts">
      <button
        type="button"
        class="button button-main"
        aria-busy={busy}
        onClick={() => {
          if (!busy) void save();
        }}
      >
        {busy ? "Working everything out…" : "Save the report"}
      </button>
      {serverHasAll.value && !redacting.value && (
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
}

/** The log as it may leave, or a word why not. */
function leavingLog(): readonly StoredEvent[] | undefined {
  const log = leaving.value;
  if (log === undefined) say("Nothing was saved: this log cannot be redacted.");
  return log;
}

/** A title may hold a hidden word; the redacted log gives its own. */
const titleOf = (log: readonly StoredEvent[]): string =>
  (redacting.value ? project(log) : view.value).opened?.title ?? "trial";

async function saveReport(): Promise<void> {
  const log = leavingLog();
  if (log === undefined) return;
  const key = deviceKey.value;
  const html = await writtenReport(log, {
    units: reportUnits.value,
    generatedAt: new Date().toISOString(),
    ...(key !== undefined && { key }),
  });
  if (html === undefined) {
    say("This device could not write the report. Load the page again, then save it again.");
    return;
  }
  saveFile(fileNameOf(titleOf(log), "html"), html, "text/html;charset=utf-8");
  say("The report is in your downloads.");
}

function saveTrialFile(): void {
  const log = leavingLog();
  if (log === undefined) return;
  const file = JSON.stringify(exportTrial(log));
  saveFile(fileNameOf(titleOf(log), "coldproof.json"), file, "application/json");
  say("The trial file is in your downloads.");
}

function saveTables(): void {
  const log = leavingLog();
  if (log === undefined) return;
  const title = fileNameOf(titleOf(log), "");
  for (const { name, text } of dataTables(project(log), log)) {
    saveFile(`${title.replace(/\.$/, "")}-${name}`, text, "text/csv;charset=utf-8");
  }
  say("The tables are in your downloads.");
}
