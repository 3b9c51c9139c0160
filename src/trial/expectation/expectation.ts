import {
  type Band,
  bandOf,
  type Composition,
  type Running,
  runVehicle,
  type VehicleCase,
} from "../../vehicle/index.ts";
import { vehicleAccount } from "../ledger/view.ts";
import type { TrialView } from "../view.ts";
import type { ReadingInContext } from "../verdict/view.ts";
import { conditionsOf, type KnownConditions } from "./conditions.ts";
import { modelOf } from "./vehicle-model.ts";

/** What this vehicle should read in these conditions, or why nobody can say. */
export type Expectation =
  | {
      readonly kind: "expected";
      readonly running: Running;
      readonly band: Band;
      readonly known: KnownConditions;
      /** kg of refrigerant the model was given. */
      readonly charge: number;
      readonly title: string;
    }
  | { readonly kind: "none"; readonly why: string };

const none = (why: string): Expectation => ({ kind: "none", why });

/** Answers depend on the projection and the conditions only, so each is worked out once. */
const memory = new WeakMap<TrialView, Map<string, Expectation>>();

/**
 * The vehicle model's forecast for a reading taken in Prove, Charge, Run or Restore.
 *
 * @param composition What should be inside, by mass.
 * @returns bands at 95 % from the parameters' plausible ranges: the model is not fitted to this vehicle.
 * Cost: some 20 ms, 0.2 s the first time a fluid is asked for.
 */
export function expectRunning(
  view: TrialView,
  reading: ReadingInContext,
  composition: Composition,
): Expectation {
  if (!view.vehicle) return none("Describe the vehicle first.");
  const known = conditionsOf(view, reading);
  if (!known) return none("Enter the outside temperature first.");
  const charge = chargeAt(view, reading);
  if (charge === undefined) return none("Post the transfer into the vehicle first.");
  const key = JSON.stringify([composition, charge, known.conditions]);
  const answers = memory.get(view) ?? new Map<string, Expectation>();
  memory.set(view, answers);
  const before = answers.get(key);
  if (before) return before;
  const answer = forecast(view.vehicle, composition, charge, known);
  answers.set(key, answer);
  return answer;
}

function forecast(
  described: NonNullable<TrialView["vehicle"]>,
  composition: Composition,
  charge: number,
  known: KnownConditions,
): Expectation {
  const choice = modelOf(described);
  if (choice.kind === "none") return none(choice.why);
  const request: VehicleCase = {
    vehicle: choice.vehicle,
    conditions: known.conditions,
    fill: { composition, charge, air: 0 },
  };
  const running = runVehicle(request);
  if (running.kind !== "running") {
    return none("The model finds no steady running in these conditions.");
  }
  const band = bandOf(request, running, choice.known);
  return { kind: "expected", running, band, known, charge, title: choice.vehicle.title };
}

/**
 * kg inside at the reading: the label charge in Prove; in a product's round what that round put in; in Restore what
 * the ledger has in the vehicle then. Undefined while nothing was weighed in, because no charge is guessed.
 */
export function chargeAt(view: TrialView, reading: ReadingInContext): number | undefined {
  const moment = reading.when === undefined ? Infinity : Date.parse(reading.when);
  const until = ({ when }: { readonly when: string }): boolean => Date.parse(when) <= moment;
  const { ledger, vehicle } = view;
  if (reading.stage === "prove") return vehicle?.labelCharge;
  if (reading.stage === "restore") {
    const account = ledger.accounts.find(({ kind }) => kind === "vehicle");
    return positive(account?.history.filter(until).at(-1)?.mass.value ?? account?.mass.value);
  }
  const ofRound = new Set(
    view.entries
      .filter(({ body }) => "round" in body && body.round === reading.round)
      .map(({ id }) => id),
  );
  const put = ledger.postings.filter(
    (posting) => posting.to === vehicleAccount && ofRound.has(posting.entry) && until(posting),
  );
  return positive(put.reduce((sum, { mass }) => sum + mass.value, 0));
}

const positive = (mass: number | undefined): number | undefined =>
  mass !== undefined && mass > 0 ? mass : undefined;
