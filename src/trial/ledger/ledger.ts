import { toSI } from "../../units/index.ts";
import type {
  Entry,
  EntryOf,
  InstrumentView,
  ProductView,
  VehicleView,
  VesselView,
} from "../view.ts";
import { Book, type Parts } from "./book.ts";
import { closure, type Found } from "./closures.ts";
import { type Form, input, measured, plus, total, uncertainty } from "./form.ts";
import { legsOf } from "./legs.ts";
import { openings, substanceName } from "./opening.ts";
import { scaleUncertainty } from "./scales.ts";
import {
  type Account,
  type AccountId,
  type Closure,
  type Content,
  type Ledger,
  type LedgerStep,
  lostAccount,
  type Posting,
  unaccountedAccount,
  vehicleAccount,
} from "./view.ts";

/** What the ledger is made from; entries in the written order, withdrawn ones already left out. */
export interface LedgerInput {
  readonly entries: readonly Entry[];
  readonly vehicle: VehicleView | undefined;
  readonly vessels: readonly VesselView[];
  readonly products: readonly ProductView[];
  readonly instruments: readonly InstrumentView[];
}

const conservationTolerance = 1e-9;
/** Contents below nothing by more than this many standard uncertainties are a finding. */
const negativeBeyond = 2;

/** Posts every entry that moves, inspects or weighs mass. Contents of lists apply from the start. */
export function ledgerOf(source: LedgerInput): Ledger {
  const posting = new Poster(source);
  for (const entry of source.entries) posting.post(entry);
  return posting.close();
}

class Poster {
  private readonly book: Book;
  private readonly postings: Posting[] = [];
  private readonly closures: Closure[] = [];
  private readonly steps: LedgerStep[] = [];
  private readonly negative = new Set<AccountId>();
  private readonly source: LedgerInput;
  private readonly initial: Form;

  constructor(source: LedgerInput) {
    this.source = source;
    const opened = openings(source.vehicle, source.vessels, source.instruments);
    const ids = [
      vehicleAccount,
      ...source.vessels.map(({ id }) => id),
      lostAccount,
      unaccountedAccount,
    ];
    this.book = new Book(ids, opened);
    this.initial = total(opened.map(({ mass }) => mass));
  }

  post(entry: Entry): void {
    if (entry.type === "reading-taken") this.checkGross(entry);
    if (entry.type === "transfer-posted") this.postTransfer(entry);
    else if (entry.type === "vessel-found-empty") this.postEmpty(entry);
    else return;
    this.steps.push({
      entry: entry.id,
      when: entry.when,
      masses: this.book.note(entry.id, entry.when),
    });
  }

  private postTransfer(entry: EntryOf<"transfer-posted">): void {
    const { body } = entry;
    const { legs, evidence, scaleAssumed } = legsOf(entry.id, body, this.source.instruments);
    for (const { to, mass, leg } of legs) {
      const parts = this.book.move(body.from, to, mass);
      this.postings.push({
        ...this.line(entry, body.from, to, mass, parts),
        leg,
        evidence,
        scaleAssumed,
        ...(body.phase && { phase: body.phase }),
      });
      if (leg === "disagreement") this.find(entry, body.to, "both-weighed", mass, false);
      if (leg === "moved" && mass.value < -negativeBeyond * uncertainty(mass)) {
        this.find(entry, body.to, "runs-backwards", mass, false);
      }
    }
    this.findNegative(entry, body.from);
  }

  private postEmpty(entry: EntryOf<"vessel-found-empty">): void {
    const account = entry.body.vessel;
    const mass = this.book.mass(account);
    const declared =
      this.book.open(account).basis === "declared" && !this.book.open(account).foundEmpty;
    const parts = this.book.empty(account, unaccountedAccount, entry.when);
    this.negative.delete(account);
    this.find(entry, account, "found-empty", mass, declared);
    if (parts.size === 0) return;
    this.postings.push({
      ...this.line(entry, account, unaccountedAccount, mass, parts),
      leg: "found-empty",
      evidence: "inspection",
      scaleAssumed: false,
    });
  }

  /** A gross weighing of a vessel whose tare is known says what is inside, beside the ledger. */
  private checkGross(entry: EntryOf<"reading-taken">): void {
    const { quantity, vessel, value, instrument } = entry.body;
    if (quantity !== "gross-mass" || vessel === undefined) return;
    const tare = this.source.vessels.find(({ id }) => id === vessel)?.tare;
    if (tare === undefined) return;
    const gross = toSI(value);
    const { u } = scaleUncertainty(this.source.instruments, instrument, gross);
    const found = input(`${entry.id}:gross`, gross - tare, Math.SQRT2 * u);
    const account = this.book.open(vessel);
    const declared = account.basis === "declared" && !account.foundEmpty;
    this.find(entry, vessel, "gross-mass", plus(this.book.mass(vessel), found, -1), declared);
  }

  private findNegative(entry: Entry, account: AccountId): void {
    const mass = this.book.mass(account);
    const below = mass.value < -negativeBeyond * uncertainty(mass);
    if (below && !this.negative.has(account)) {
      this.negative.add(account);
      this.find(
        entry,
        account,
        "negative-contents",
        mass,
        this.book.open(account).basis === "declared",
      );
    } else if (!below) {
      this.negative.delete(account);
    }
  }

  private find(
    { id, when }: Entry,
    account: AccountId,
    kind: Found["kind"],
    residual: Form,
    declared: boolean,
  ): void {
    const name = this.nameOf(account);
    this.closures.push(closure({ entry: id, when, account, name, kind, residual, declared }));
  }

  private line({ id, when }: Entry, from: AccountId, to: AccountId, mass: Form, parts: Parts) {
    return { entry: id, when, from, to, mass: measured(mass), parts: this.contents(parts) };
  }

  private contents(parts: Parts): Content[] {
    return [...parts]
      .map(([substance, form]) => ({
        substance,
        name: substanceName(substance, this.source.products),
        mass: measured(form),
      }))
      .filter(({ mass }) => mass.value !== 0 || mass.u !== 0)
      .sort((a, b) => (a.substance < b.substance ? -1 : 1));
  }

  private nameOf(id: AccountId): string {
    if (id === vehicleAccount) return "The vehicle";
    if (id === lostAccount) return "Lost";
    if (id === unaccountedAccount) return "Unaccounted";
    return this.source.vessels.find((vessel) => vessel.id === id)?.name ?? "A vessel not listed";
  }

  private kindOf(id: AccountId): Account["kind"] {
    if (id === vehicleAccount) return "vehicle";
    if (id === lostAccount) return "lost";
    return id === unaccountedAccount ? "unaccounted" : "vessel";
  }

  close(): Ledger {
    const accounts = [...this.book.accounts.values()].map((account): Account => ({
      id: account.id,
      name: this.nameOf(account.id),
      kind: this.kindOf(account.id),
      basis: account.basis,
      initial: measured(account.initial),
      mass: measured(this.book.mass(account.id)),
      contents: this.contents(account.contents),
      history: account.history,
      heldSinceEmpty: [...account.held].sort(),
      ...(account.foundEmpty !== undefined && { foundEmpty: account.foundEmpty }),
    }));
    const initial = this.initial.value;
    const now = accounts.reduce((sum, { mass }) => sum + mass.value, 0);
    const masses = accounts.flatMap(({ initial: start, history }) => [
      start.value,
      ...history.map(({ mass }) => mass.value),
    ]);
    return {
      accounts,
      postings: this.postings,
      closures: this.closures,
      steps: this.steps,
      largest: Math.max(0, ...masses),
      conservation: { initial, now, holds: Math.abs(now - initial) <= conservationTolerance },
    };
  }
}
