import { useEffect, useRef } from "preact/hooks";
import type { Entry, TrialView } from "../../trial/index.ts";
import { spokenInstant } from "../forms/instant.ts";
import { pathTo } from "../shell/route.ts";
import { entryPlace, entryWords } from "./entry-words.ts";
import { Withdraw } from "./withdraw.tsx";

interface Props {
  readonly trial: string;
  readonly view: TrialView;
  readonly entry: Entry;
  /** The entry that the place names: it is brought into view. */
  readonly here?: boolean;
}

/** One statement with its history: what holds, what stood first, who changed it and why. */
export function EntryRow({ trial, view, entry, here = false }: Props) {
  const row = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (here) row.current?.scrollIntoView({ block: "center" });
  }, [here]);
  const { what, says } = entryWords(view, entry);
  const withdrawn = entry.withdrawn !== undefined;
  return (
    <li ref={row} class={here ? "entry is-here" : "entry"} id={`entry-${entry.id}`}>
      <p class={withdrawn ? "entry-says is-withdrawn" : "entry-says"}>
        <strong>{what}</strong> <span class="figure">{says}</span>
      </p>
      <p class="quiet">
        {spokenInstant(entry.when)} · {entryPlace(view, entry)} · {entry.device}
      </p>
      {entry.conflict.length > 0 && (
        <p class="told">Two devices corrected this without seeing each other. The later one holds: look at it.</p>
      )}
      {entry.corrections.length > 0 && <History view={view} entry={entry} />}
      {entry.withdrawn && (
        <p class="told">
          Withdrawn {spokenInstant(entry.withdrawn.at)}: {entry.withdrawn.reason}
        </p>
      )}
      {!withdrawn && (
        <details class="entry-acts">
          <summary>Correct or withdraw</summary>
          {entry.type !== "trace-imported" && entry.type !== "item-confirmed" && (
            <a class="button" href={pathTo("trial", trial, "correct", entry.id)}>
              Correct it
            </a>
          )}
          <Withdraw trial={trial} entry={entry.id} what={what} />
        </details>
      )}
    </li>
  );
}

/** First entry and corrections, oldest first. */
function History({ view, entry }: { readonly view: TrialView; readonly entry: Entry }) {
  const first = entryWords(view, { ...entry, body: entry.original } as Entry);
  return (
    <ul class="history">
      <li>
        First entry: <span class="figure">{first.says}</span>
      </li>
      {entry.corrections.map((correction) => (
        <li key={correction.id}>
          Corrected {spokenInstant(correction.at)} on {correction.device}: {correction.reason}
          {!correction.effective && <span class="quiet"> · no longer holds</span>}
        </li>
      ))}
    </ul>
  );
}
