import { mean, standardDeviation } from "../numerics/index.ts";
import { unitSize } from "../units/index.ts";
import type { ReadingForm, ReadingQuantity } from "./events.ts";
import { given } from "./given.ts";
import { instrumentUncertainty } from "./instruments.ts";
import { type Memory, rememberedSettlement } from "./memory.ts";
import { ofType } from "./plan.ts";
import { secondsOf } from "./traces/clock.ts";
import { settleOptions } from "./traces/criteria.ts";
import { within } from "./traces/intervals.ts";
import { settle } from "./traces/settle.ts";
import type { Series, Settlement, TraceView } from "./traces/view.ts";
import type { Entry, EntryOf, InstrumentView, ReadingView, RunValue, RunView } from "./view.ts";

export interface RunInput {
  readonly entries: readonly Entry[];
  readonly traces: readonly TraceView[];
  readonly readings: readonly ReadingView[];
  readonly instruments: readonly InstrumentView[];
  readonly atmosphere: number;
  readonly memory: Memory;
}

export const runViews = (source: RunInput): RunView[] =>
  ofType(source.entries, "run-recorded").map((entry) => runView(entry, source));

function runView(entry: EntryOf<"run-recorded">, source: RunInput): RunView {
  const { body } = entry;
  const trace = source.traces.find(({ id }) => id === body.trace);
  const fromTrace = trace ? traceValues(trace, body, source) : { values: [], unusable: [] };
  return given({
    id: entry.id,
    name: body.name,
    stage: body.stage,
    round: body.round,
    when: entry.when,
    condition: body.condition,
    airSource: body.airSource,
    blower: body.blower,
    charged: body.charged,
    trace: body.trace,
    from: body.from,
    to: body.to,
    note: body.note,
    values: [...fromTrace.values, ...typedValues(entry.id, source)],
    unusable: fromTrace.unusable,
  });
}

/** The file's clock inside an interval; a bound that was not given leaves that side open. */
function bounds(trace: TraceView, body: EntryOf<"run-recorded">["body"]): [number, number] {
  const start = secondsOf(trace.start, "iso", 1) ?? 0;
  const at = (text: string | undefined, open: number) => {
    const seconds = text === undefined ? undefined : secondsOf(text, "iso", 1);
    return seconds === undefined ? open : seconds - start;
  };
  return [at(body.from, -Infinity), at(body.to, Infinity)];
}

function traceValues(
  trace: TraceView,
  body: EntryOf<"run-recorded">["body"],
  source: RunInput,
): Pick<RunView, "values" | "unusable"> {
  const [from, to] = bounds(trace, body);
  const values: RunValue[] = [];
  const unusable: { quantity: ReadingQuantity; reason: string }[] = [];
  for (const series of trace.series) {
    const { quantity } = series;
    const settlement = rememberedSettlement(source.memory, series, `${from} ${to}`, () => {
      const { t, values: y } = within(series, from, to);
      return settle(t, y, settleOptions(quantity));
    });
    if (settlement.kind === "too-short") {
      const reason = `${settlement.n} good samples over ${settlement.seconds.toFixed(0)} s; a settled value needs ${settlement.neededSeconds} s`;
      unusable.push({ quantity, reason });
    } else {
      values.push(...valuesOf(settlement, series, trace.id, source));
    }
  }
  return { values, unusable };
}

function valuesOf(
  settlement: Exclude<Settlement, { kind: "too-short" }>,
  series: Series,
  trace: string,
  source: RunInput,
): RunValue[] {
  const one = (form: ReadingForm, value: number, uRepeatability: number): RunValue =>
    withInstrument(
      {
        quantity: series.quantity,
        form,
        value,
        uRepeatability,
        instrument: series.instrument,
        standing: settlement.kind,
        source: { kind: "trace", trace, column: series.column, window: settlement.window },
      },
      source,
    );
  if (settlement.kind === "cycling") {
    const { lowest, highest } = settlement;
    return [one("lowest", lowest.value, lowest.u), one("highest", highest.value, highest.u)];
  }
  return [one("steady", settlement.value, settlement.u)];
}

function withInstrument(
  value: Omit<RunValue, "u" | "uInstrument" | "instrument"> & {
    readonly instrument: string | undefined;
  },
  { instruments, atmosphere }: RunInput,
): RunValue {
  const instrument = instruments.find(({ id }) => id === value.instrument);
  const uInstrument = instrument && instrumentUncertainty(instrument, value.value, atmosphere);
  return given({ ...value, uInstrument, u: Math.hypot(value.uRepeatability, uInstrument ?? 0) });
}

/** Readings typed for a run: one a quantity, form, place and instrument; several are averaged. */
function typedValues(run: string, source: RunInput): RunValue[] {
  const groups = new Map<string, ReadingView[]>();
  for (const reading of source.readings) {
    if (reading.run !== run) continue;
    const { quantity, form, place = "", instrument = "" } = reading;
    const key = [quantity, form, place, instrument].join("|");
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  return [...groups.values()].flatMap((group) => {
    const first = group[0];
    if (!first) return [];
    const { quantity, form, instrument } = first;
    const readings = group.map(({ id }) => id);
    const value = mean(group.map((reading) => reading.value));
    const plain = { quantity, form, value, instrument, standing: "typed" as const };
    const uRepeatability = scatterOf(group);
    return [
      withInstrument({ ...plain, uRepeatability, source: { kind: "readings", readings } }, source),
    ];
  });
}

/** Several readings show their scatter; one shows no more than its last digit. */
function scatterOf(group: readonly ReadingView[]): number {
  const digit = Math.max(...group.map(lastDigit)) / Math.sqrt(12);
  if (group.length < 2) return digit;
  const values = group.map(({ value }) => value);
  return Math.max(digit, standardDeviation(values) / Math.sqrt(values.length));
}

/** SI size of one step of the last digit that was typed. */
function lastDigit({ typed }: ReadingView): number {
  const [, decimals = ""] = String(typed.value).split(".");
  return 10 ** -decimals.length * unitSize(typed.unit);
}
