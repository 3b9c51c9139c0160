import { useEffect } from "preact/hooks";
import { spokenInstant } from "../forms/instant.ts";
import { trialsChanged } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";
import { pathTo } from "../shell/route.ts";
import { TopBar } from "../shell/top-bar.tsx";
import { OpenDemonstration } from "./open-demonstration.tsx";
import { CheckedReport } from "./checked-report.tsx";
import { takeFile } from "./given-file.ts";
import { ImportTrial } from "./import-trial.tsx";
import { readTrialRows, type TrialRow, trialRows } from "./trial-list.ts";

/** All trials of this device, and the ways to get one. */
export function Home() {
  const changes = trialsChanged.value;
  useEffect(() => {
    void readTrialRows();
  }, [changes]);
  const rows = trialRows.value;
  return (
    <>
      <TopBar />
      <main
        class="page home"
        onDragOver={(event) => {
          event.preventDefault();
        }}
        onDrop={(event) => {
          event.preventDefault();
          const file = event.dataTransfer?.files[0];
          if (file) void takeFile(file);
        }}
      >
        <div class="home-lead">
          <h1 tabIndex={-1}>Is the can what it says?</h1>
          <p class="lead">
            Test a refrigerant sold as a replacement on one real vehicle, account for every gram,
            and publish an answer that a sceptic can recompute.
          </p>
          <a class="button button-main" href={pathTo("new")}>
            New trial
          </a>
        </div>
        <div class="home-list">
          <CheckedReport />
          <section aria-labelledby="trials">
            <h2 id="trials">Trials on this device</h2>
            {rows === undefined ? (
              <p class="quiet">Reading this device…</p>
            ) : rows.length === 0 ? (
              <p class="empty">
                None yet. Open the demonstration to see a finished trial, or start your own: first
                the question, then the vehicle.
              </p>
            ) : (
              <ul class="rows">
                {rows.map((row) => (
                  <li key={row.trial}>
                    <Row row={row} />
                  </li>
                ))}
              </ul>
            )}
          </section>
        </div>
        <div class="home-more">
          <div class="home-ways">
            <a class="button" href={pathTo("learn")}>
              Learn with an invented van
            </a>
            <OpenDemonstration />
            <ImportTrial />
            <a class="button" href={pathTo("fluids")}>
              Look up a fluid or blend
            </a>
            <a class="button" href={pathTo("vehicle")}>
              What a vehicle should read
            </a>
            <a class="button" href={pathTo("combine")}>
              Compare trials
            </a>
          </div>
        </div>
      </main>
    </>
  );
}

function Row({ row }: { readonly row: TrialRow }) {
  const last = preferences.value.places[row.trial] ?? ["stage", "plan", "-"];
  return (
    <a class="row trial-row" href={pathTo("trial", row.trial, ...last)}>
      <strong>
        {row.title}
        {row.demonstration && <span class="tag">Demonstration</span>}
      </strong>
      <span>{row.question}</span>
      <small>
        {row.place !== undefined && `${row.place} · `}
        {row.state} · last entry {spokenInstant(row.last)}
      </small>
    </a>
  );
}
