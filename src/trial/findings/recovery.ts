import {
  airCheck,
  type AirCheck,
  materialOf,
  type Reached,
  rectangular,
  recoveredShare,
  type RecoveredShare,
  requiredPressure,
  residualVapour,
  vacuumReached,
} from "../../service/index.ts";
import { modelOf } from "../expectation/vehicle-model.ts";
import { type Posting, vehicleAccount } from "../ledger/view.ts";
import type { ReadingQuantity } from "../events.ts";
import type { ReadingView, TrialView } from "../view.ts";
import { modelVolume } from "./charge-plan.ts";
import { contentOf, type FindingPlace, type Handled, takenOut } from "./handled.ts";
import { type VesselFit, vesselFits } from "./vessel-fit.ts";

/** Vapour still in the system at the last pressure read: kg, Pa, K, m3. */
export interface StillInside {
  readonly phase: "vapour" | "liquid-possible";
  /** Of vapour; with liquid possible, the least. */
  readonly mass: number;
  readonly u: number;
  readonly p: number;
  readonly volume: number;
  readonly T: number;
  readonly required: number;
  readonly verdict: Reached;
  /** What nobody read and had to be taken for granted. */
  readonly assumed: readonly string[];
}

/** Oil out and back, m3. */
export interface OilAccount {
  readonly drained: number;
  readonly returned: number;
  readonly toPutBack: number;
}

/** Air in a vessel by its last pressure and temperature. */
export interface VesselAir {
  readonly vessel: string;
  readonly name: string;
  readonly content: string;
  readonly p: number;
  readonly T: number;
  readonly check: AirCheck;
}

/** A vessel that took in what this stage took out, kg. */
export interface TakenInto {
  readonly vessel: string;
  readonly name: string;
  readonly mass: { readonly value: number; readonly u: number };
}

export interface RecoveryFinding {
  readonly content: Handled;
  /** Where it went so far, by the ledger. */
  readonly into: readonly TakenInto[];
  /** Something was charged since: what this stage takes out is no longer in the vehicle. */
  readonly over: boolean;
  readonly vessels: readonly VesselFit[];
  /** Why it cannot be told, or what is still inside. */
  readonly inside: StillInside | { readonly missing: string };
  readonly recovered?: RecoveredShare;
  readonly oil?: OilAccount;
  readonly air: readonly VesselAir[];
}

/** Metal of a system nobody measured: the middle of the rule's 21 to 24 °C, ± 5 K (a choice, no source). */
const SHOP = { T: 295.65, limit: 5 };
/** A shop's thermometer against the system's metal, K (common practice, no source). */
const THERMOMETER = 3;
/** Of a volume that a model or a hand estimate gives (a choice, no source). */
const MODEL_VOLUME = 0.2;
const GIVEN_VOLUME = 0.05;
/** A zeroed compound gauge, Pa: 1 inHg (common practice, no source). */
const GAUGE = 3386;

const here =
  ({ stage, round }: FindingPlace) =>
  (one: { readonly stage: string; readonly round?: string | undefined }): boolean =>
    one.stage === stage && one.round === round;

const lastOf = (
  readings: readonly ReadingView[],
  quantities: readonly ReadingQuantity[],
): ReadingView | undefined => readings.findLast(({ quantity }) => quantities.includes(quantity));

/** Internal volume as the log gives it, else the model's. */
export function internalVolume(
  view: TrialView,
): { readonly value: number; readonly u: number; readonly ofModel: boolean } | undefined {
  const { vehicle } = view;
  if (!vehicle) return undefined;
  if (vehicle.internalVolume !== undefined) {
    const value = vehicle.internalVolume;
    return { value, u: rectangular(GIVEN_VOLUME * value), ofModel: false };
  }
  const model = modelOf(vehicle);
  if (model.kind === "none") return undefined;
  const value = modelVolume(model.vehicle);
  return { value, u: rectangular(MODEL_VOLUME * value), ofModel: true };
}

function insideOf(
  view: TrialView,
  place: FindingPlace,
  content: Handled,
): RecoveryFinding["inside"] {
  const readings = view.readings.filter(here(place));
  const deep = lastOf(readings, ["low-side", "vacuum"]);
  if (!deep) return { missing: "Read the low side at the end of recovery." };
  if (!content.known) return { missing: "Nobody knows what is inside, so its vapour has no mass." };
  const volume = internalVolume(view);
  if (!volume) return { missing: "Enter the vehicle's internal volume: the mass follows from it." };
  const shop = lastOf(view.readings, ["shop-temperature", "outside-temperature"]);
  const T = shop
    ? { value: shop.value, u: rectangular(THERMOMETER) }
    : { value: SHOP.T, u: rectangular(SHOP.limit) };
  const instrument = deep.u ?? rectangular(GAUGE);
  const p = { value: deep.value, u: Math.hypot(instrument, view.atmosphere.u) };
  const found = residualVapour({ material: materialOf(content.known.moles), volume, T, p });
  if (found.kind === "failed") {
    return { missing: "The equations of state have no answer at this pressure and temperature." };
  }
  const assumed = [
    ...(volume.ofModel ? ["internal volume from the model of this kind of vehicle, ± 20 %"] : []),
    ...(shop ? [] : ["a shop at 22.5 °C"]),
    ...(deep.u === undefined ? ["a gauge good to 1 inHg"] : []),
  ];
  return {
    phase: found.kind,
    mass: found.kind === "vapour" ? found.mass : found.leastMass,
    u: found.kind === "vapour" ? found.u : 0,
    ...{ p: deep.value, volume: volume.value, T: T.value, assumed },
    required: requiredPressure(view.atmosphere.value),
    verdict: vacuumReached({ value: deep.value, u: instrument }, view.atmosphere.value),
  };
}

/** What this stage took out of the vehicle. */
function postedOut(view: TrialView, place: FindingPlace): readonly Posting[] {
  const entries = new Set(
    view.entries.filter(({ body }) => "stage" in body && here(place)(body)).map(({ id }) => id),
  );
  return view.ledger.postings.filter(
    ({ entry, from, leg }) =>
      entries.has(entry) && from === vehicleAccount && leg !== "found-empty",
  );
}

/** The listed vessels that took it in, one sum each. */
const takenInto = (view: TrialView, out: readonly Posting[]): TakenInto[] =>
  view.vessels.flatMap(({ id, name }) => {
    const masses = out.filter(({ to }) => to === id).map(({ mass }) => mass);
    if (masses.length === 0) return [];
    const value = masses.reduce((sum, mass) => sum + mass.value, 0);
    return [{ vessel: id, name, mass: { value, u: Math.hypot(...masses.map(({ u }) => u)) } }];
  });

/** Was the vehicle charged after the last of it came out? */
function chargedSince({ ledger }: TrialView, out: readonly Posting[]): boolean {
  const last = out.at(-1);
  if (!last) return false;
  const later = ledger.postings.slice(ledger.postings.lastIndexOf(last) + 1);
  return later.some(({ to }) => to === vehicleAccount);
}

/** Mass that this stage took out of the vehicle against what the ledger had in it before. */
function recoveredHere(view: TrialView, out: readonly Posting[]): RecoveredShare | undefined {
  const [first] = out;
  const account = view.ledger.accounts.find(({ id }) => id === vehicleAccount);
  if (!first || !account) return undefined;
  const step = account.history.findIndex(({ entry }) => entry === first.entry);
  const before = step > 0 ? account.history[step - 1]?.mass : account.initial;
  if (!before || !(before.value > 0)) return undefined;
  const value = out.reduce((sum, { mass }) => sum + mass.value, 0);
  return recoveredShare(before, { value, u: Math.hypot(...out.map(({ mass }) => mass.u)) });
}

/** Oil of the round, or of Restore: drained in Recover, returned in Charge. */
function oilOf({ readings }: TrialView, { stage, round }: FindingPlace): OilAccount | undefined {
  const ofRound = readings.filter(
    (one) => one.round === round && (round ?? one.stage) === (round ?? stage),
  );
  const sum = (quantity: ReadingQuantity): number =>
    ofRound.reduce((all, one) => (one.quantity === quantity ? all + one.value : all), 0);
  const [drained, returned] = [sum("oil-drained"), sum("oil-returned")];
  if (drained === 0 && returned === 0) return undefined;
  return { drained, returned, toPutBack: Math.max(0, drained - returned) };
}

function vesselAirs(view: TrialView): VesselAir[] {
  return view.vessels.flatMap(({ id, name }) => {
    const readings = view.readings.filter(({ vessel }) => vessel === id);
    const pressure = lastOf(readings, ["vessel-pressure"]);
    const temperature = lastOf(readings, ["vessel-temperature"]);
    const contents = view.ledger.accounts.find((one) => one.id === id)?.contents ?? [];
    const [only, ...more] = contents.filter(({ mass }) => mass.value > 2 * mass.u);
    const content = only && more.length === 0 ? contentOf(view, only.substance) : undefined;
    if (!pressure || !temperature || !content?.known) return [];
    const material = materialOf(content.known.moles);
    const check = airCheck({ material, T: temperature.value, p: pressure.value, u: pressure.u });
    const read = { p: pressure.value, T: temperature.value };
    return check.kind === "checked"
      ? [{ vessel: id, name, content: content.name, ...read, check }]
      : [];
  });
}

/**
 * What a recovery stage can say: which vessel may take it, what is still inside, what came out, oil and air.
 *
 * @param today YYYY-MM-DD: retest dates are held against it.
 * @returns undefined while nobody wrote down what is in the vehicle.
 */
export function recoveryFinding(
  view: TrialView,
  place: FindingPlace,
  today: string,
): RecoveryFinding | undefined {
  const content = takenOut(view, place);
  if (!content) return undefined;
  const out = postedOut(view, place);
  const recovered = recoveredHere(view, out);
  const oil = oilOf(view, place);
  return {
    content,
    into: takenInto(view, out),
    over: chargedSince(view, out),
    vessels: vesselFits(view, content, today),
    inside: insideOf(view, place, content),
    ...(recovered && { recovered }),
    ...(oil && { oil }),
    air: vesselAirs(view),
  };
}
