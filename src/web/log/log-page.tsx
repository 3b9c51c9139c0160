import type { Refused } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { EntryRow } from "./entry-row.tsx";

interface Props {
  readonly trial: string;
  readonly entry: string | undefined;
}

/** Every entry in the order in which it happened, withdrawn ones and refused ones too. */
export function LogPage({ trial, entry: here }: Props) {
  const seen = view.value;
  return (
    <main class="wide" id="main">
      <h1 tabIndex={-1}>The log</h1>
      <p class="lead">
        Nothing here is ever changed. A correction or a withdrawal is added, and the first entry
        stays.
      </p>
      <section class="sheet">
        <h2>
          <span class="figure">{seen.entries.length}</span> entries, in the order in which they happened
        </h2>
        <ol class="entries">
          {seen.entries.map((entry) => (
            <EntryRow key={entry.id} trial={trial} view={seen} entry={entry} here={entry.id === here} />
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
