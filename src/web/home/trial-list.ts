import { signal } from "@preact/signals";
import { project, type TrialView } from "../../trial/index.ts";
import { theStore } from "../shell/log-keeper.ts";

/** One trial as the list shows it. */
export interface TrialRow {
  readonly trial: string;
  readonly title: string;
  readonly question: string;
  readonly place?: string;
  readonly state: string;
  readonly last: string;
  readonly demonstration: boolean;
}

export const trialRows = signal<readonly TrialRow[] | undefined>(undefined);

/** What is known without the loggers' files; which stages are done is not. */
function stateOf({ stages, entries }: TrialView, count: number): string {
  const last = entries.findLast(({ body }) => "stage" in body)?.body;
  const at = last && "stage" in last ? stages.find(({ stage }) => stage === last.stage) : undefined;
  return `${count} ${count === 1 ? "entry" : "entries"}${at ? `, the last at ${at.title}` : ""}`;
}

/** Rows already made, with the number of events that they were made from. */
const made = new Map<string, { readonly events: number; readonly row: TrialRow }>();
/** Long, and nothing that a list shows. */
const leftOut = new Set<string>(["trace-imported", "samples-received"]);

/** Reads the trials of the device that grew since the last time. */
export async function readTrialRows(): Promise<void> {
  const rows: TrialRow[] = [];
  for (const { trial, events: count } of await theStore().trials()) {
    const known = made.get(trial);
    const row = known?.events === count ? known.row : await readRow(trial);
    made.set(trial, { events: count, row });
    rows.push(row);
  }
  trialRows.value = rows.sort((a, b) => (a.last < b.last ? 1 : -1));
}

async function readRow(trial: string): Promise<TrialRow> {
  const { events } = await theStore().read(trial);
  const view = project(events.filter(({ type }) => !leftOut.has(type)));
  return {
    trial,
    title: view.opened?.title ?? "A trial without its question",
    question: view.opened?.question ?? "",
    ...(view.opened?.place !== undefined && { place: view.opened.place }),
    state: stateOf(view, events.length),
    last: events.reduce((last, { at }) => (at > last ? at : last), ""),
    demonstration: view.opened?.demonstration ?? false,
  };
}
