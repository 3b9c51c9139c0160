import type { Ledger, Posting } from "../../trial/index.ts";

/** Everything that went one way between two accounts, kg. */
export interface Flow {
  readonly from: string;
  readonly to: string;
  readonly mass: number;
  /** Variance of the sum, kg2; weighings of different postings are taken as independent. */
  readonly u2: number;
  readonly entries: readonly string[];
}

/**
 * The transfers up to a step (or of that step alone), one line for each pair of accounts and direction.
 * A posting of negative mass runs the other way.
 */
export function flowsOf(postings: readonly Posting[]): Flow[] {
  const flows = new Map<string, Flow>();
  for (const posting of postings) {
    const back = posting.mass.value < 0;
    const [from, to] = back ? [posting.to, posting.from] : [posting.from, posting.to];
    const key = JSON.stringify([from, to]);
    const so = flows.get(key) ?? { from, to, mass: 0, u2: 0, entries: [] };
    flows.set(key, {
      from,
      to,
      mass: so.mass + Math.abs(posting.mass.value),
      u2: so.u2 + posting.mass.u ** 2,
      entries: [...so.entries, posting.entry],
    });
  }
  return [...flows.values()];
}

export interface Lane {
  readonly flow: Flow;
  readonly fromRow: number;
  readonly toRow: number;
  /** 0 is nearest to the bars. */
  readonly lane: number;
}

/**
 * Gives each flow a lane beside the rows so that no two lines share a stretch: shortest first, each in
 * the nearest lane that is free.
 */
export function lanesOf(flows: readonly Flow[], rowOf: ReadonlyMap<string, number>): Lane[] {
  const placed: Lane[] = [];
  const spans = flows.flatMap((flow) => {
    const [fromRow, toRow] = [rowOf.get(flow.from), rowOf.get(flow.to)];
    return fromRow === undefined || toRow === undefined ? [] : [{ flow, fromRow, toRow }];
  });
  const length = (s: { fromRow: number; toRow: number }) => Math.abs(s.fromRow - s.toRow);
  for (const span of [...spans].sort((a, b) => length(a) - length(b))) {
    let lane = 0;
    while (placed.some((other) => other.lane === lane && touch(other, span))) lane++;
    placed.push({ ...span, lane });
  }
  return spans.flatMap(({ flow }) => placed.filter((one) => one.flow === flow));
}

interface Span {
  readonly fromRow: number;
  readonly toRow: number;
}

/** Lines that only meet end to end would still share an arrow head: those count as touching. */
function touch(a: Span, b: Span): boolean {
  const [a0, a1] = [Math.min(a.fromRow, a.toRow), Math.max(a.fromRow, a.toRow)];
  const [b0, b1] = [Math.min(b.fromRow, b.toRow), Math.max(b.fromRow, b.toRow)];
  return a0 <= b1 && b0 <= a1;
}

/** Masses of all accounts at a step, kg, and the postings that made it; the end when no step is named. */
export function atStep(
  ledger: Ledger,
  entry: string | undefined,
): { masses: ReadonlyMap<string, number>; before?: ReadonlyMap<string, number>; made: Posting[] } {
  const index = entry === undefined ? -1 : ledger.steps.findIndex((step) => step.entry === entry);
  const step = ledger.steps[index];
  if (!step) {
    return {
      masses: new Map(ledger.accounts.map(({ id, mass }) => [id, mass.value])),
      before: new Map(ledger.accounts.map(({ id, initial }) => [id, initial.value])),
      made: [...ledger.postings],
    };
  }
  const earlier = ledger.steps[index - 1]?.masses;
  return {
    masses: step.masses,
    before: earlier ?? new Map(ledger.accounts.map(({ id, initial }) => [id, initial.value])),
    made: ledger.postings.filter((posting) => posting.entry === entry),
  };
}
