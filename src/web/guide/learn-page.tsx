import { useEffect, useState } from "preact/hooks";
import { v7 as uuidv7 } from "uuid";
import { spokenInstant } from "../forms/instant.ts";
import { readTrialRows, trialRows } from "../home/trial-list.ts";
import { makeEvent, takeIn, trialsChanged } from "../shell/log-keeper.ts";
import { prefer, preferences } from "../shell/preferences.ts";
import { go } from "../shell/route.ts";
import { TopBar } from "../shell/top-bar.tsx";
import "./guide.css";
import { lessonPart } from "./lesson.ts";

const guide = (trial: string): void => {
  prefer({ guided: { ...preferences.value.guided, [trial]: true } });
};

/** Begins a practice trial with its question; what went wrong, if anything did. */
async function begin(): Promise<string | undefined> {
  const trial = uuidv7();
  const failure = await takeIn(
    lessonPart("open").map(({ type, body }) => makeEvent(trial, type, body)),
  );
  if (failure !== undefined) return failure;
  guide(trial);
  go("trial", trial, "stage", "plan", "-");
  return undefined;
}

/** A first trial with a guide: what it is, and those that were begun. */
export function LearnPage() {
  const [failure, setFailure] = useState<string>();
  return (
    <>
      <TopBar title="Learn" />
      <main class="page narrow">
        <h1 tabIndex={-1}>Learn with an invented van</h1>
        <p class="lead">
          A van labelled R134a, and a can called Kestrel that is sold as a refill for it. You walk
          the trial from Plan to Publish, one card at a time. Each card says what to do, why, and
          what the instruments showed. Type it yourself, or have it entered.
        </p>
        <ul class="learn-points">
          <li>It takes 10 to 20 minutes, and works without a connection.</li>
          <li>Leave it at any card and go on later. What you entered stays.</li>
          <li>
            Nothing is real: the trial is marked as a demonstration, and so is its report. Keep your
            hands off a real system until you know its rules and hold the licence.
          </li>
        </ul>
        <Begun />
        <button
          type="button"
          class="button button-main"
          onClick={() => void begin().then(setFailure)}
        >
          Start a practice trial
        </button>
        {failure !== undefined && (
          <p class="field-issue" role="alert">
            {failure}
          </p>
        )}
      </main>
    </>
  );
}

function Begun() {
  const changes = trialsChanged.value;
  useEffect(() => {
    void readTrialRows();
  }, [changes]);
  const begun = (trialRows.value ?? []).filter(
    ({ trial }) => preferences.value.guided[trial] !== undefined,
  );
  if (begun.length === 0) return null;
  return (
    <section aria-labelledby="begun">
      <h2 id="begun">Go on with one that you began</h2>
      <ul class="rows learn-begun">
        {begun.map(({ trial, state, last }) => (
          <li key={trial}>
            <button
              type="button"
              class="row"
              onClick={() => {
                guide(trial);
                const place = preferences.value.places[trial] ?? ["stage", "plan", "-"];
                go("trial", trial, ...place);
              }}
            >
              <strong>Last entry {spokenInstant(last)}</strong>
              <small>{state}</small>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
