import type { BodyOf } from "./events.ts";
import { inOrder } from "./order.ts";
import { parseBody } from "./parse.ts";
import type { CorrectionView, EntryType, Refused, StoredEvent, WithdrawalView } from "./view.ts";

/**
 * Corrections and withdrawals. Rule: of the corrections of one entry that are not withdrawn, the
 * latest by (at, id) holds. It was made in knowledge of those it names in `supersedes`, of those
 * they name in turn, and of earlier ones from the same device; any other was made independently,
 * and the entry is marked so that a person can look.
 */
export interface Amendments {
  /** Undefined when nobody amended the entry. */
  readonly ofEntry: (id: string) => History | undefined;
  readonly refused: readonly Refused[];
}

interface History {
  /** Body that replaces the original; undefined when none does. */
  readonly effective: unknown;
  readonly corrections: readonly CorrectionView[];
  readonly conflict: readonly string[];
  readonly withdrawn: WithdrawalView | undefined;
}

interface Correction {
  readonly event: StoredEvent;
  readonly target: string;
  readonly reason: string;
  readonly supersedes: readonly string[];
  readonly body: unknown;
}

const refusal = (
  { id, type }: StoredEvent,
  reason: Refused["reason"],
  issues: Refused["issues"] = [],
): Refused => ({ id, type, reason, issues });

const byAt = (a: StoredEvent, b: StoredEvent): number =>
  inOrder({ id: a.id, when: a.at }, { id: b.id, when: b.at });

/** @param typesOf  Gives the type of every entry that can be amended, by id; asked only when needed. */
export function amendments(
  events: readonly StoredEvent[],
  typesOf: () => ReadonlyMap<string, EntryType>,
): Amendments {
  if (events.length === 0) return { refused: [], ofEntry: () => undefined };
  const types = typesOf();
  const refused: Refused[] = [];
  const ordered = [...events].sort(byAt);
  const amending = new Set(ordered.map(({ id }) => id));
  const corrections = new Map<string, Correction>();
  for (const event of ordered) {
    if (event.type !== "entry-corrected") continue;
    const correction = readCorrection(event, types, amending);
    if ("event" in correction) corrections.set(event.id, correction);
    else refused.push(correction);
  }
  const withdrawals = readWithdrawals(ordered, types, corrections, amending, refused);
  const byTarget = new Map<string, Correction[]>();
  for (const correction of corrections.values()) {
    const known = byTarget.get(correction.target);
    if (known) known.push(correction);
    else byTarget.set(correction.target, [correction]);
  }
  const ofEntry = (id: string): History | undefined => {
    const mine = byTarget.get(id);
    if (!mine && !withdrawals.has(id)) return undefined;
    return historyOf(id, mine ?? [], withdrawals);
  };
  return { refused, ofEntry };
}

function readCorrection(
  event: StoredEvent,
  types: ReadonlyMap<string, EntryType>,
  amending: ReadonlySet<string>,
): Correction | Refused {
  const parsed = parseBody("entry-corrected", event.body);
  if (parsed.kind === "invalid") return refusal(event, "bad-body", parsed.issues);
  const { target, body, reason, supersedes = [] } = parsed.value;
  const type = types.get(target);
  if (!type) {
    return refusal(event, amending.has(target) ? "target-not-an-entry" : "unknown-target");
  }
  const replacement = parseBody(type, body);
  if (replacement.kind === "invalid") {
    return refusal(event, "bad-correction", replacement.issues);
  }
  return { event, target, reason, supersedes, body: replacement.value };
}

/** The earliest withdrawal of each target, which may be an entry or a correction. */
function readWithdrawals(
  ordered: readonly StoredEvent[],
  types: ReadonlyMap<string, EntryType>,
  corrections: ReadonlyMap<string, Correction>,
  amending: ReadonlySet<string>,
  refused: Refused[],
): ReadonlyMap<string, WithdrawalView> {
  const withdrawals = new Map<string, WithdrawalView>();
  for (const event of ordered) {
    if (event.type !== "entry-withdrawn") continue;
    const parsed = parseBody("entry-withdrawn", event.body);
    if (parsed.kind === "invalid") {
      refused.push(refusal(event, "bad-body", parsed.issues));
      continue;
    }
    const { target, reason }: BodyOf<"entry-withdrawn"> = parsed.value;
    if (!types.has(target) && !corrections.has(target)) {
      refused.push(refusal(event, amending.has(target) ? "target-not-an-entry" : "unknown-target"));
    } else {
      const first = withdrawals.get(target);
      const spoken = first ?? { ids: [], at: event.at, device: event.device, reason };
      withdrawals.set(target, { ...spoken, ids: [...spoken.ids, event.id] });
    }
  }
  return withdrawals;
}

function historyOf(
  entry: string,
  mine: readonly Correction[],
  withdrawals: ReadonlyMap<string, WithdrawalView>,
): History {
  const active = mine.filter(({ event }) => !withdrawals.has(event.id));
  const effective = active.at(-1);
  const known = effective ? knownTo(effective, mine) : new Set<string>();
  return {
    effective: effective?.body,
    corrections: mine.map((correction) => view(correction, effective, withdrawals)),
    conflict: active
      .filter((one) => one !== effective && !known.has(one.event.id))
      .map(({ event }) => event.id),
    withdrawn: withdrawals.get(entry),
  };
}

function view(
  { event, reason, body }: Correction,
  effective: Correction | undefined,
  withdrawals: ReadonlyMap<string, WithdrawalView>,
): CorrectionView {
  const { id, at, device } = event;
  const withdrawn = withdrawals.get(id);
  const plain = { id, at, device, reason, body, effective: effective?.event.id === id };
  return withdrawn ? { ...plain, withdrawn } : plain;
}

/** Ids of the corrections that `correction` was made in knowledge of. */
function knownTo(correction: Correction, all: readonly Correction[]): ReadonlySet<string> {
  const known = new Set<string>();
  const open = [correction];
  for (let next = open.pop(); next; next = open.pop()) {
    const current = next;
    for (const other of all) {
      const earlierHere =
        other.event.device === current.event.device && byAt(other.event, current.event) < 0;
      const named = current.supersedes.includes(other.event.id);
      if ((earlierHere || named) && !known.has(other.event.id)) {
        known.add(other.event.id);
        open.push(other);
      }
    }
  }
  return known;
}
