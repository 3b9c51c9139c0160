import type { TrialView } from "../view.ts";
import { grams } from "./closures.ts";
import { substanceName } from "./opening.ts";
import {
  type Account,
  type AccountId,
  lostAccount,
  type MixingConcern,
  type SubstanceKey,
  vehicleAccount,
} from "./view.ts";

type Seen = Pick<TrialView, "ledger" | "vessels" | "products">;

/** Contents within this many standard uncertainties of nothing count as a possible residue. */
const presentBeyond = 2;

/**
 * What speaks against moving the contents of `from` into `to`, before a valve is opened.
 * Filling limits are not looked at here. An empty list is no permission.
 */
export function mixingWarning(
  view: Seen,
  from: AccountId,
  to: AccountId,
): readonly MixingConcern[] {
  if (from === to) {
    return [
      {
        kind: "same-vessel",
        severity: "stop",
        sentence: "Source and destination are the same vessel.",
      },
    ];
  }
  if (to === lostAccount) return [];
  const source = accountOf(view, from);
  const target = accountOf(view, to);
  const incoming = source ? carried(source) : [];
  return [
    ...unknownContents(source),
    ...mixtures(view, incoming, target),
    ...vesselConcerns(view, incoming, to, target),
  ];
}

const accountOf = ({ ledger }: Seen, id: AccountId): Account | undefined =>
  ledger.accounts.find((account) => account.id === id);

const present = (account: Account): Account["contents"] =>
  account.contents.filter(({ mass }) => mass.value > presentBeyond * mass.u);

/** What would come out: what is surely there, else whatever has been in it since it was empty. */
function carried(account: Account): readonly SubstanceKey[] {
  const sure = present(account).map(({ substance }) => substance);
  return sure.length > 0 ? sure : account.heldSinceEmpty;
}

function unknownContents(source: Account | undefined): MixingConcern[] {
  if (source && carried(source).length > 0) return [];
  const sentence =
    "The log does not say what the source holds. Identify it before it meets anything else.";
  return [{ kind: "unknown-contents", severity: "check", sentence }];
}

function mixtures(
  view: Seen,
  incoming: readonly SubstanceKey[],
  target: Account | undefined,
): MixingConcern[] {
  if (!target) return [];
  const name = (key: SubstanceKey) => substanceName(key, view.products);
  const coming = incoming.map(name).join(" and ") || "unknown refrigerant";
  const sure = present(target);
  const foreign = sure.filter(({ substance }) => !incoming.includes(substance));
  const mixes = foreign.map(({ name: held, mass }): MixingConcern => ({
    kind: "mixes",
    severity: "stop",
    sentence: `${target.name} holds ${grams(mass.value, mass.u)} of ${held}. Adding ${coming} makes a mixture that nobody can separate in a shop or sell as either.`,
  }));
  const surely = new Set(sure.map(({ substance }) => substance));
  const traces = target.heldSinceEmpty.filter((key) => !incoming.includes(key) && !surely.has(key));
  return [
    ...mixes,
    ...traces.map((key): MixingConcern => ({
      kind: "not-emptied-since",
      severity: "check",
      sentence: `${target.name} has held ${name(key)} and was not found empty since. Recover and evacuate it, and record that, before ${coming} goes in.`,
    })),
  ];
}

function vesselConcerns(
  view: Seen,
  incoming: readonly SubstanceKey[],
  to: AccountId,
  target: Account | undefined,
): MixingConcern[] {
  if (to === vehicleAccount) return [];
  const vessel = view.vessels.find(({ id }) => id === to);
  const concerns: MixingConcern[] = [];
  const name = target?.name ?? "The destination";
  if (vessel?.kind === "can") {
    concerns.push({
      kind: "not-a-recovery-vessel",
      severity: "stop",
      sentence: `${name} is a can: a disposable container must not be filled again.`,
    });
  }
  if (flammable(view, incoming) && vessel?.flammableRated !== true) {
    concerns.push({
      kind: "not-flammable-rated",
      severity: "stop",
      sentence: `The refrigerant carries a flammable mark and ${name} is not listed as rated for flammable gas.`,
    });
  }
  if (vessel?.kind !== "hose-set" && vessel?.ratedPressure === undefined) {
    concerns.push({
      kind: "pressure-rating-unknown",
      severity: "check",
      sentence: `No rated pressure is listed for ${name}. Read its mark before filling it.`,
    });
  }
  const neverLookedAt = target?.basis === "none" && target.foundEmpty === undefined;
  if (neverLookedAt && target.heldSinceEmpty.length === 0) {
    concerns.push({
      kind: "unknown-contents",
      severity: "check",
      sentence: `Nothing says that ${name} is empty. Evacuate it, or record what it holds.`,
    });
  }
  return concerns;
}

const flammable = ({ products }: Seen, incoming: readonly SubstanceKey[]): boolean =>
  products.some(({ id, flammableMark }) => flammableMark && incoming.includes(`product:${id}`));
