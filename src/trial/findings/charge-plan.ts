import {
  type BulkFailure,
  equalLevel,
  equalLiquidVolume,
  type MassTolerance,
  massTolerance,
  materialOf,
  type Material,
  type Part,
  restSeries,
  type RestSeries,
} from "../../service/index.ts";
import {
  type Conditions,
  createRunWork,
  type NoPlateau,
  optimumCharge,
  type OptimumCharge,
  type RunWork,
  type UnchargedCase,
  type Vehicle,
} from "../../vehicle/index.ts";
import { type ChargeStep, type HighStop, highStopOf, runningSteps } from "./charge-steps.ts";

/** A refrigerant by mole and by mass. */
export interface Refrigerant {
  readonly moles: readonly Part[];
  readonly mass: readonly Part[];
}

/** What a target charge is worked out from: kg, m3, K, Pa. */
export interface ChargeQuestion {
  readonly product: Refrigerant;
  readonly label: Refrigerant & { readonly charge: number };
  /** Internal volume of the system, where it is known. */
  readonly volume?: number | undefined;
  readonly ambient: number;
  readonly condensing: number;
  readonly humidity: number;
  readonly pAir: number;
  readonly vehicle?: Vehicle | undefined;
}

export type ChargeMethod =
  "liquid-at-ambient" | "liquid-at-condensing" | "internal-volume" | "vehicle-optimum";

/** One way to a mass, kg; of the label charge. */
export interface ChargeMass {
  readonly method: ChargeMethod;
  readonly mass: number;
  readonly ratio: number;
  /** Over what it moves with the weather, where a method knows. */
  readonly range?: { readonly from: number; readonly to: number };
}

export interface ChargePlan {
  readonly kind: "plan";
  readonly masses: readonly ChargeMass[];
  readonly chosen: ChargeMass;
  /** The model's optimum is too far from what the densities say to be the target. */
  readonly modelApart: boolean;
  /** From the smallest to the largest of the methods. */
  readonly range: { readonly from: number; readonly to: number };
  readonly tolerance: MassTolerance;
  /** Label refrigerant whose liquid fills as much as the chosen mass, kg: what "equal ounces" would claim. */
  readonly claimed: number;
  readonly optimum: OptimumCharge | NoPlateau | undefined;
  /** m3, and whether it is the model's. */
  readonly volume: number | undefined;
  readonly volumeOfModel: boolean;
  readonly atRest: RestSeries | undefined;
  readonly running: readonly ChargeStep[];
  readonly highStop: HighStop | undefined;
}

/** Weather in which the model's optimum is looked for, K: the middle one gives the figure. */
const WEATHER = [298.15, 308.15, 316.15] as const;
const REFERENCE = 308.15;
/** Raised idle, rev/s, blower full, cabin on its way down: how a charge is watched (common practice, no source). */
const RAISED_IDLE = 1500 / 60;
const PULL_DOWN = 0.45;
const REST_STEPS = 12;
/** Beyond the target: how far the series go on. */
const BEYOND = 1.2;

/** The label's charge as what is asked, watched parked at raised idle. */
const conditionsAt = (ambient: number, { humidity, pAir }: ChargeQuestion): Conditions => ({
  ambient,
  humidity,
  pAir,
  speed: 0,
  engineSpeed: RAISED_IDLE,
  blower: 1,
  recirculation: 1,
  returnAir: { kind: "pull-down", share: PULL_DOWN },
  occupants: 0,
});

const compositionOf = ({ mass }: Refrigerant) => ({
  ids: mass.map(({ fluid }) => fluid),
  fractions: mass.map(({ fraction }) => fraction),
});

/** The model's question in some air, without the charge. */
export const unchargedCase = (
  question: ChargeQuestion,
  vehicle: Vehicle,
  ambient: number,
): UnchargedCase => ({
  vehicle,
  conditions: conditionsAt(ambient, question),
  composition: compositionOf(question.product),
});

/** Internal volume of the model's system, m3. */
export const modelVolume = ({ values }: Vehicle): number =>
  values.condenserVolume +
  values.evaporatorVolume +
  values.liquidLineVolume +
  values.dischargeLineVolume +
  values.suctionLineVolume +
  values.bufferVolume;

interface Optimum {
  readonly mass: ChargeMass | undefined;
  readonly found: OptimumCharge | NoPlateau;
}

function optimumOf(question: ChargeQuestion, vehicle: Vehicle, work: RunWork): Optimum {
  const label = { composition: compositionOf(question.label), charge: question.label.charge };
  const at = (T: number) => optimumCharge(unchargedCase(question, vehicle, T), label, work);
  const found = at(REFERENCE);
  if (found.kind === "none") return { mass: undefined, found };
  const charges = WEATHER.flatMap((T) => {
    const one = T === REFERENCE ? found : at(T);
    return one.kind === "optimum" ? [one.charge] : [];
  });
  const range = { from: Math.min(...charges), to: Math.max(...charges) };
  const ratio = found.charge / question.label.charge;
  return { mass: { method: "vehicle-optimum", mass: found.charge, ratio, range }, found };
}

/** The masses that need no model. */
function plainMasses(
  question: ChargeQuestion,
  pair: { readonly label: Material; readonly product: Material },
  volume: number | undefined,
): readonly ChargeMass[] | BulkFailure {
  const { ambient, condensing } = question;
  const both = { ...pair, charge: question.label.charge };
  const cold = equalLiquidVolume({ ...both, T: ambient });
  if (cold.kind === "failed") return cold;
  const hot = equalLiquidVolume({ ...both, T: condensing });
  const level = volume === undefined ? undefined : equalLevel({ ...both, T: ambient }, volume);
  const mass = (method: ChargeMethod, found: typeof cold | BulkFailure | undefined) =>
    found?.kind === "mass" ? [{ method, mass: found.mass, ratio: found.ratio }] : [];
  return [
    ...mass("liquid-at-ambient", cold),
    // A condensing temperature above the critical point has no liquid: that method falls away.
    ...mass("liquid-at-condensing", hot),
    ...mass("internal-volume", level),
  ];
}

/**
 * How far the model's optimum may lie outside of the other methods, as a part: beyond it an expansion device made for
 * another flow, not the charge, is what the model answers to (a choice, no source).
 */
const APART = 0.15;

function isApart(optimum: ChargeMass | undefined, plain: readonly ChargeMass[]): boolean {
  if (!optimum) return false;
  const masses = plain.map(({ mass }) => mass);
  const [least, most] = [Math.min(...masses), Math.max(...masses)];
  return optimum.mass > (1 + APART) * most || optimum.mass < (1 - APART) * least;
}

/** The best known comes first. */
const PREFERENCE: readonly ChargeMethod[] = [
  "vehicle-optimum",
  "internal-volume",
  "liquid-at-condensing",
  "liquid-at-ambient",
];

/**
 * A target mass for a product from the label charge, by every method that the knowledge at hand allows, and what to
 * expect while it goes in.
 *
 * @throws RangeError for numbers that are not finite: the caller's bug.
 * Cost: without a vehicle some milliseconds; with one 50 to 300 ms.
 * Source: docs/models/charging.md
 */
export function chargePlan(question: ChargeQuestion): ChargePlan | BulkFailure {
  const { label, vehicle } = question;
  const pair = { label: materialOf(label.moles), product: materialOf(question.product.moles) };
  const volume = question.volume ?? (vehicle && modelVolume(vehicle));
  const plain = plainMasses(question, pair, volume);
  if ("kind" in plain) return plain;
  const work = createRunWork();
  const optimum = vehicle && optimumOf(question, vehicle, work);
  const masses = [...plain, ...(optimum?.mass ? [optimum.mass] : [])];
  const modelApart = isApart(optimum?.mass, plain);
  const trusted = modelApart ? plain : masses;
  const [chosen] = PREFERENCE.flatMap((method) => trusted.filter((one) => one.method === method));
  if (!chosen) throw new RangeError("the liquid at ambient gives a mass");
  const all = masses.map(({ mass }) => mass);
  const claimed = equalLiquidVolume({
    label: pair.product,
    charge: chosen.mass,
    product: pair.label,
    T: question.ambient,
  });
  const rest =
    volume === undefined
      ? undefined
      : restSeries(pair.product, {
          T: question.ambient,
          volume,
          most: BEYOND * chosen.mass,
          steps: REST_STEPS,
        });
  const asked = vehicle && unchargedCase(question, vehicle, question.ambient);
  return {
    kind: "plan",
    masses,
    chosen,
    modelApart,
    range: { from: Math.min(...all), to: Math.max(...all) },
    tolerance: massTolerance(chosen.mass),
    claimed: claimed.kind === "mass" ? claimed.mass : label.charge,
    optimum: optimum?.found,
    volume,
    volumeOfModel: question.volume === undefined && volume !== undefined,
    atRest: rest?.kind === "series" ? rest : undefined,
    running: asked ? runningSteps(asked, BEYOND * chosen.mass, work) : [],
    highStop: asked && highStopOf(asked, chosen.mass, work),
  };
}
