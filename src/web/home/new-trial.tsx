import { useEffect, useState } from "preact/hooks";
import { v7 as uuidv7 } from "uuid";
import { EntryForm } from "../forms/entry-form.tsx";
import { openingSpecs } from "../plan/trial-specs.ts";
import { openNewTrialDrafts } from "../shell/log-keeper.ts";
import { go } from "../shell/route.ts";
import { TopBar } from "../shell/top-bar.tsx";

/** The question comes first: with it the trial begins. */
export function NewTrial() {
  const [ready, setReady] = useState(false);
  const [trial] = useState(() => uuidv7());
  useEffect(() => {
    void openNewTrialDrafts().then(() => {
      setReady(true);
    });
  }, []);
  return (
    <>
      <TopBar title="New trial" />
      <main class="page narrow has-action">
        <h1 tabIndex={-1}>What is the question?</h1>
        <p class="lead">
          Fix it now, before the first reading. It may be corrected later, and the first wording
          stays in the log.
        </p>
        {ready && (
          <EntryForm
            trial={trial}
            type="trial-opened"
            formKey="trial-opened"
            specs={openingSpecs}
            saveLabel="Start the trial"
            onCancel={() => {
              go();
            }}
            onSaved={() => {
              go("trial", trial, "stage", "plan", "-");
            }}
          />
        )}
      </main>
    </>
  );
}
