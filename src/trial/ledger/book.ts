import { type Form, measured, plus, scaled, total, zero } from "./form.ts";
import type { Opening } from "./opening.ts";
import type { AccountId, AccountStep, ContentBasis, SubstanceKey } from "./view.ts";

/**
 * The accounts while a log is posted. Built fresh for every projection and never handed out; each
 * change moves the same forms out of one account and into another, so nothing appears or vanishes.
 */
export interface OpenAccount {
  readonly id: AccountId;
  readonly basis: ContentBasis;
  readonly initial: Form;
  contents: Map<SubstanceKey, Form>;
  readonly history: AccountStep[];
  held: Set<SubstanceKey>;
  /** Shares by mass when it last held something: what an "empty" vessel would still give. */
  lastShares: ReadonlyMap<SubstanceKey, number>;
  foundEmpty: string | undefined;
}

export type Parts = ReadonlyMap<SubstanceKey, Form>;

export class Book {
  readonly accounts = new Map<AccountId, OpenAccount>();

  constructor(ids: readonly AccountId[], openings: readonly Opening[]) {
    for (const id of ids) this.open(id);
    for (const opening of openings) this.begin(opening);
  }

  private begin({ account, basis, substance, mass }: Opening): void {
    const contents = new Map([[substance, mass]]);
    this.accounts.set(account, {
      ...emptyAccount(account),
      basis,
      initial: mass,
      contents,
      held: new Set([substance]),
      lastShares: shares(contents) ?? new Map(),
    });
  }

  /** The account, opened empty when nobody listed it: a transfer to it is still mass somewhere. */
  open(id: AccountId): OpenAccount {
    const known = this.accounts.get(id);
    if (known) return known;
    const account = emptyAccount(id);
    this.accounts.set(id, account);
    return account;
  }

  mass(id: AccountId): Form {
    return total(this.open(id).contents.values());
  }

  /**
   * Moves `mass` in proportion to what the source holds. Vapour drawn off a blend is in truth richer
   * in its light parts; the ledger follows mass, not composition.
   */
  move(from: AccountId, to: AccountId, mass: Form): Parts {
    const source = this.open(from);
    const now = shares(source.contents) ?? source.lastShares;
    source.lastShares = now;
    const proportions = now.size > 0 ? now : new Map<SubstanceKey, number>([["unknown", 1]]);
    const parts = new Map([...proportions].map(([key, share]) => [key, scaled(mass, share)]));
    this.transferParts(source, this.open(to), parts);
    return parts;
  }

  /** Moves everything the account is thought to hold, whatever its sign, and leaves it at nothing. */
  empty(id: AccountId, to: AccountId, when: string): Parts {
    const source = this.open(id);
    const parts = new Map(source.contents);
    this.transferParts(source, this.open(to), parts);
    source.contents = new Map();
    source.held = new Set();
    source.lastShares = new Map();
    source.foundEmpty = when;
    return parts;
  }

  private transferParts(source: OpenAccount, target: OpenAccount, parts: Parts): void {
    for (const [key, part] of parts) {
      source.contents.set(key, plus(source.contents.get(key) ?? zero, part, -1));
      target.contents.set(key, plus(target.contents.get(key) ?? zero, part));
      target.held.add(key);
    }
  }

  /** Notes every account's mass after an entry; only changes lengthen its history. */
  note(entry: string, when: string): ReadonlyMap<AccountId, number> {
    const masses = new Map<AccountId, number>();
    for (const account of this.accounts.values()) {
      const mass = measured(total(account.contents.values()));
      masses.set(account.id, mass.value);
      const last = account.history.at(-1)?.mass ?? measured(account.initial);
      if (last.value !== mass.value || last.u !== mass.u)
        account.history.push({ entry, when, mass });
    }
    return masses;
  }
}

const emptyAccount = (id: AccountId): OpenAccount => ({
  id,
  basis: "none",
  initial: zero,
  contents: new Map(),
  history: [],
  held: new Set(),
  lastShares: new Map(),
  foundEmpty: undefined,
});

/** Shares by mass of what is there; undefined when nothing positive is. */
function shares(contents: Parts): ReadonlyMap<SubstanceKey, number> | undefined {
  const positive = [...contents].filter(([, { value }]) => value > 0);
  const sum = positive.reduce((all, [, { value }]) => all + value, 0);
  if (!(sum > 0)) return undefined;
  return new Map(positive.map(([key, { value }]) => [key, value / sum]));
}
