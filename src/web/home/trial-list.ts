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

function stateOf(view: TrialView): string {
  const done = view.stages.filter(({ status }) => status === "done").length;
  const open = view.stages.filter(({ status }) => status === "open").map(({ title }) => title);
  const count = `${done} of ${view.stages.length} stages done`;
  return open.length === 0 ? count : `${count}; open: ${open.slice(0, 3).join(", ")}`;
}

/** Reads every trial of the device; imported logger files are left out, since no list needs them. */
export async function readTrialRows(): Promise<void> {
  const rows: TrialRow[] = [];
  for (const { trial } of await theStore().trials()) {
    const { events } = await theStore().read(trial);
    const view = project(events.filter(({ type }) => type !== "trace-imported"));
    rows.push({
      trial,
      title: view.opened?.title ?? "A trial without its question",
      question: view.opened?.question ?? "",
      ...(view.opened?.place !== undefined && { place: view.opened.place }),
      state: stateOf(view),
      last: events.map(({ at }) => at).sort().at(-1) ?? "",
      demonstration: view.opened?.demonstration ?? false,
    });
  }
  trialRows.value = rows.sort((a, b) => (a.last < b.last ? 1 : -1));
}
