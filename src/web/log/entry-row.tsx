import { useEffect, useRef, useState } from "preact/hooks";
import type { Entry, TrialView } from "../../trial/index.ts";
import { spokenInstant } from "../forms/instant.ts";
import { pathTo } from "../shell/route.ts";
import { entryPlace, entryWords } from "./entry-words.ts";
import { History } from "./history.tsx";
import { Withdraw } from "./withdraw.tsx";

interface Props {
  readonly trial: string;
  readonly view: TrialView;
  readonly entry: Entry;
  /** The entry that the place names: it is brought into view. */
  readonly here?: boolean;
}

const fixedForm = ["trace-imported", "stream-opened", "samples-received", "item-confirmed"];

/** One statement with its history: what holds, what stood first, who changed it and why. */
export function EntryRow({ trial, view, entry, here = false }: Props) {
  const row = useRef<HTMLLIElement>(null);
  const [open, setOpen] = useState(false);
  useEffect(() => {
    if (here) row.current?.scrollIntoView({ block: "center" });
  }, [here]);
  const { what, says } = entryWords(view, entry);
  const withdrawn = entry.withdrawn !== undefined;
  const acts = `acts-${entry.id}`;
  return (
    <li ref={row} class={here ? "entry is-here" : "entry"} id={`entry-${entry.id}`}>
      <div class="entry-line">
        <div>
          <p class={withdrawn ? "is-withdrawn" : ""}>
            <strong>{what}</strong> <span class="figure">{says}</span>
          </p>
          <p class="quiet">
            {spokenInstant(entry.when)} · {entryPlace(view, entry)} · {entry.device}
          </p>
        </div>
        {!withdrawn && (
          <button
            type="button"
            class="plain"
            aria-expanded={open}
            aria-controls={open ? acts : undefined}
            aria-label={`${open ? "Close" : "Change"}: ${what} ${says.slice(0, 60)}`}
            onClick={() => {
              setOpen(!open);
            }}
          >
            {open ? "Close" : "Change"}
          </button>
        )}
      </div>
      <History view={view} entry={entry} />
      {open && !withdrawn && (
        <div class="entry-acts" id={acts}>
          {!fixedForm.includes(entry.type) && (
            <a class="button" href={pathTo("trial", trial, "correct", entry.id)}>
              Correct it
            </a>
          )}
          <Withdraw trial={trial} entry={entry.id} what={what} />
        </div>
      )}
    </li>
  );
}
