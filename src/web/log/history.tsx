import type { Entry, TrialView } from "../../trial/index.ts";
import { spokenInstant } from "../forms/instant.ts";
import { entryWords } from "./entry-words.ts";

interface Props {
  readonly view: TrialView;
  readonly entry: Entry;
}

/** What became of an entry: its first wording, its corrections, its withdrawal, oldest first. */
export function History({ view, entry }: Props) {
  const { corrections, conflict, withdrawn } = entry;
  if (corrections.length === 0 && withdrawn === undefined) return null;
  const first = entryWords(view, { ...entry, body: entry.original } as Entry);
  return (
    <ul class="history">
      {corrections.length > 0 && (
        <li>
          First entry: <span class="figure">{first.says}</span>
        </li>
      )}
      {corrections.map((correction) => (
        <li key={correction.id}>
          Corrected {spokenInstant(correction.at)} on {correction.device}: {correction.reason}
          {!correction.effective && <span class="quiet"> · no longer holds</span>}
        </li>
      ))}
      {conflict.length > 0 && (
        <li class="told">
          Two devices corrected this without seeing each other. The later one holds: look at it.
        </li>
      )}
      {withdrawn && (
        <li>
          Withdrawn {spokenInstant(withdrawn.at)}: {withdrawn.reason}
        </li>
      )}
    </ul>
  );
}
