import { useState } from "preact/hooks";
import type { Refused } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { EntryRow } from "./entry-row.tsx";

interface Props {
  readonly trial: string;
  readonly entry: string | undefined;
}

/** Entries drawn at once; a long log would hold up the page. */
const page = 300;

/** Every entry in the order in which it happened, withdrawn ones and refused ones too. */
export function LogPage({ trial, entry: here }: Props) {
  const seen = view.value;
  const [shown, setShown] = useState(page);
  const told = seen.entries.filter(({ type }) => type !== "samples-received");
  const batches = seen.entries.length - told.length;
  // The newest stand at the end; an entry that the place names must be among those that are drawn.
  const named = told.findIndex(({ id }) => id === here);
  const first = Math.max(0, Math.min(told.length - shown, named < 0 ? told.length : named));
  return (
    <main class="wide" id="main">
      <h1 tabIndex={-1}>The log</h1>
      <p class="lead">
        Nothing here is ever changed. A correction or a withdrawal is added, and the first entry
        stays.
      </p>
      <section class="sheet">
        <h2>
          <span class="figure">{seen.entries.length}</span> entries, in the order in which they
          happened
        </h2>
        {batches > 0 && (
          <p class="quiet">
            <span class="figure">{batches}</span> of them are batches of samples; their streams show
            them as traces.
          </p>
        )}
        {first > 0 && (
          <button
            type="button"
            class="button"
            onClick={() => {
              setShown(shown + page);
            }}
          >
            Show {Math.min(page, first)} earlier entries of {first}
          </button>
        )}
        <ol class="entries">
          {told.slice(first).map((entry) => (
            <EntryRow
              key={entry.id}
              trial={trial}
              view={seen}
              entry={entry}
              here={entry.id === here}
            />
          ))}
        </ol>
      </section>
      {seen.refused.length > 0 && <RefusedList refused={seen.refused} />}
    </main>
  );
}

const reasons: Readonly<Record<Refused["reason"], string>> = {
  "bad-body": "its contents do not fit its type",
  "unknown-target": "it changes an entry that is not in this log",
  "target-not-an-entry": "it changes something that is no entry",
  "bad-correction": "the corrected contents do not fit the entry’s type",
  "other-trial": "it belongs to another trial",
  "same-id-other-content": "another entry has the same number and other contents",
};

function RefusedList({ refused }: { readonly refused: readonly Refused[] }) {
  return (
    <section class="sheet">
      <h2>Kept, but not counted</h2>
      <ul class="entries">
        {refused.map((one) => (
          <li key={`${one.id} ${one.reason}`} class="entry">
            <p>
              <strong>{one.type.replaceAll("-", " ")}</strong>: {reasons[one.reason]}
            </p>
            {one.issues.map((issue) => (
              <p key={issue.field} class="quiet">
                {issue.field}: {issue.accepted}
              </p>
            ))}
          </li>
        ))}
      </ul>
    </section>
  );
}
