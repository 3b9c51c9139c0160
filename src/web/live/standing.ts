import type { Shown } from "../../report/index.ts";
import { type Outlook, outlookOf, type Series, type TraceView, within } from "../../trial/index.ts";

/** One quantity of a growing trace: where it stands, and what is said of it. */
export interface Standing {
  readonly series: Series;
  readonly outlook: Outlook;
}

/** Tail that says where a quantity is going, s: what came before was another condition. */
const tailSeconds = 900;
/** Tell the condition; nobody waits for them to settle. */
const conditions: ReadonlySet<string> = new Set(["vehicle-speed", "engine-speed"]);

/** Every column that has a sample, from the tail of its record. */
export const standingsOf = ({ series }: TraceView): readonly Standing[] =>
  series.flatMap((one) => {
    const last = one.t.at(-1);
    if (last === undefined) return [];
    const { t, values } = within(one, last - tailSeconds, last);
    return [{ series: one, outlook: outlookOf(t, values, one.quantity) }];
  });

export const isWaitedFor = ({ series }: Standing): boolean => !conditions.has(series.quantity);

export const isSettled = ({ outlook }: Standing): boolean =>
  outlook.settlement.kind === "settled" || outlook.settlement.kind === "cycling";

export function allSettled(standings: readonly Standing[]): boolean {
  const waited = standings.filter(isWaitedFor);
  return waited.length > 0 && waited.every(isSettled);
}

/** "in about 2 min", "in about 40 s". */
export function inAbout(seconds: number): string {
  if (seconds < 90) return `in about ${Math.max(10, Math.ceil(seconds / 10) * 10)} s`;
  return `in about ${Math.ceil(seconds / 60)} min`;
}

/** "40 s", "3 min": rounded up, for it is a least. */
const moreOf = (seconds: number): string =>
  seconds > 90 ? `${Math.ceil(seconds / 60)} min` : `${Math.max(1, Math.ceil(seconds))} s`;

/** What a quantity does, in a word; and where it goes, in a sentence. */
export function standingWords(
  { outlook }: Standing,
  shown: Shown,
): { readonly word: string; readonly sentence: string } {
  const { settlement, end, inSeconds } = outlook;
  switch (settlement.kind) {
    case "settled":
      return { word: "Settled", sentence: `at ${shown.text(settlement.value)}` };
    case "cycling":
      return {
        word: "Cycling",
        sentence: `between ${shown.text(settlement.lowest.value)} and ${shown.text(settlement.highest.value)}, every ${settlement.period.toFixed(0)} s`,
      };
    case "too-short":
    case "still-moving": {
      const word = settlement.kind === "too-short" ? "Wait" : "Still moving";
      const where = end
        ? `It goes to about ${shown.text(end.value)}`
        : "Where it ends cannot be told yet";
      const when =
        inSeconds === undefined
          ? settlement.kind === "too-short"
            ? `; that takes ${moreOf(settlement.neededSeconds - settlement.seconds)} more`
            : ""
          : `, settled ${inAbout(inSeconds)}`;
      return { word, sentence: `${where}${when}` };
    }
  }
}
