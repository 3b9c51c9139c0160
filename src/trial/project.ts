import { comparisons, driftRows } from "./comparison.ts";
import { fold } from "./fold.ts";
import { given } from "./given.ts";
import { freshMemory, type Memory } from "./memory.ts";
import { ledgerOf } from "./ledger/ledger.ts";
import {
  atmosphereOf,
  instrumentViews,
  ofType,
  openedPlan,
  productViews,
  vehicleView,
  vesselViews,
} from "./plan.ts";
import { confirmationViews, noteViews, readingViews } from "./readings.ts";
import { runViews } from "./runs.ts";
import { stageViews } from "./stages/stages.ts";
import { proposeIntervals } from "./traces/intervals.ts";
import { readTrace } from "./traces/read.ts";
import { readStream, type StreamBatch } from "./traces/stream.ts";
import type { TraceView } from "./traces/view.ts";
import type { Entry, EntryOf, StoredEvent, TrialView } from "./view.ts";

export interface ProjectOptions {
  /** False for a first look: files and streams are not read, and runs have no values from them. */
  readonly recordings?: boolean;
}

/**
 * Everything that follows from a log. Pure: the same set of events gives the same view, in any order,
 * repeated or split.
 *
 * @param events  Lines with sound envelopes; bodies that say nothing usable end up in `refused`.
 * @param memory  Kept by a caller that projects a growing log again and again; changes nothing but time.
 */
export function project(
  events: readonly StoredEvent[],
  memory: Memory = freshMemory(),
  { recordings = true }: ProjectOptions = {},
): TrialView {
  const { trial, entries, refused } = fold(events, memory);
  const standing = entries.filter(({ withdrawn }) => !withdrawn);
  const instruments = instrumentViews(standing);
  const atmosphere = atmosphereOf(standing, instruments);
  const opened = openedPlan(standing);
  const vehicle = vehicleView(standing);
  const products = productViews(standing);
  const vessels = vesselViews(standing, atmosphere.value);
  const readings = readingViews(standing, instruments, atmosphere.value);
  const traces = recordings
    ? [
        ...traceViews(standing, atmosphere.value, memory),
        ...streamViews(standing, atmosphere.value, memory),
      ]
    : [];
  const runs = runViews({
    entries: standing,
    traces,
    readings,
    instruments,
    atmosphere: atmosphere.value,
    memory,
  });
  const facts = {
    ...given({ trial, opened, vehicle }),
    atmosphere,
    instruments,
    products,
    vessels,
    readings,
    runs,
    traces,
    notes: noteViews(standing),
    confirmations: confirmationViews(standing),
    entries,
    refused,
    ledger: ledgerOf({ entries: standing, vehicle, vessels, products, instruments }),
    comparisons: comparisons(runs, vehicle?.labelRefrigerant),
    drift: driftRows(runs, vehicle?.labelRefrigerant),
  };
  return { ...facts, stages: stageViews(facts, standing) };
}

const traceViews = (
  entries: readonly Entry[],
  atmosphere: number,
  { traces }: Memory,
): TraceView[] =>
  ofType(entries, "trace-imported").map((entry) => {
    const known = traces.get(entry.body);
    if (known?.atmosphere === atmosphere) return known.view;
    const view = traceView(entry, atmosphere);
    traces.set(entry.body, { atmosphere, view });
    return view;
  });

function traceView({ id, when, body }: EntryOf<"trace-imported">, atmosphere: number): TraceView {
  const contents = readTrace(body.content, body.mapping, atmosphere);
  return given({
    id,
    fileName: body.fileName,
    kind: body.kind,
    stage: body.stage,
    round: body.round,
    when,
    ...contents,
    proposals: body.kind === "run" ? proposeIntervals(contents) : [],
  });
}

/** Streams read like files that still grow: the samples of a stream, in whatever batches they came. */
function streamViews(
  entries: readonly Entry[],
  atmosphere: number,
  { streams }: Memory,
): TraceView[] {
  const opened = ofType(entries, "stream-opened");
  if (opened.length === 0) return [];
  const batches = new Map<string, StreamBatch[]>(opened.map(({ id }) => [id, []]));
  let stream: string | undefined;
  let mine: StreamBatch[] | undefined;
  for (const { body } of ofType(entries, "samples-received")) {
    if (body.stream !== stream) {
      ({ stream } = body);
      mine = batches.get(stream);
    }
    mine?.push(body);
  }
  return opened.map((entry) => {
    const mine = batches.get(entry.id) ?? [];
    const known = streams.get(entry.body);
    if (known?.atmosphere === atmosphere && areSame(known.batches, mine)) return known.view;
    const view = streamView(entry, mine, atmosphere);
    streams.set(entry.body, { atmosphere, batches: mine, view });
    return view;
  });
}

const areSame = (a: readonly object[], b: readonly object[]): boolean =>
  a.length === b.length && a.every((one, i) => one === b[i]);

function streamView(
  { id, when, body }: EntryOf<"stream-opened">,
  batches: readonly StreamBatch[],
  atmosphere: number,
): TraceView {
  const contents = readStream(body.columns, batches, atmosphere);
  return given({
    id,
    fileName: body.name,
    kind: "run" as const,
    stage: body.stage,
    round: body.round,
    when,
    stream: true as const,
    ...contents,
    proposals: proposeIntervals(contents),
  });
}
