import type { LognormalPrior, NormalPrior } from "../../inference/index.ts";
import { waterSaturation } from "../../air/index.ts";
import type { PreparedHold } from "./trace.ts";

/** What a hold may be; "undecided" is a verdict, not a model. */
export type HoldCause = "tight" | "wet" | "outgassing" | "leaking";

/** How a gas that comes out of oil and rubber slows down. */
export type Slowing = "exponential" | "logarithmic" | "square-root";

/** One physical picture of a hold. */
export interface HoldModel {
  readonly id: string;
  readonly cause: HoldCause;
  readonly leak: boolean;
  readonly source?:
    | { readonly kind: "gas"; readonly slowing: Slowing }
    | { readonly kind: "water"; readonly over: "metal" | "ice" };
  /** Share of holds of this kind before one is seen. */
  readonly prior: number;
}

const slowings: readonly Slowing[] = ["exponential", "logarithmic", "square-root"];

/**
 * All pictures with their shares beforehand: about how often a mechanic meets them (judgement, no source).
 * A leak beside water or oil counts as leaking.
 */
export const holdModels: readonly HoldModel[] = [
  { id: "tight", cause: "tight", leak: false, prior: 0.25 },
  { id: "wet", cause: "wet", leak: false, source: { kind: "water", over: "metal" }, prior: 0.13 },
  { id: "wet-ice", cause: "wet", leak: false, source: { kind: "water", over: "ice" }, prior: 0.02 },
  ...slowings.map((slowing): HoldModel => ({
    id: `outgassing-${slowing}`,
    cause: "outgassing",
    leak: false,
    source: { kind: "gas", slowing },
    prior: 0.25 / 3,
  })),
  { id: "leaking", cause: "leaking", leak: true, prior: 0.2 },
  ...slowings.map((slowing): HoldModel => ({
    id: `leaking-outgassing-${slowing}`,
    cause: "leaking",
    leak: true,
    source: { kind: "gas", slowing },
    prior: 0.1 / 3,
  })),
  {
    id: "leaking-wet",
    cause: "leaking",
    leak: true,
    source: { kind: "water", over: "metal" },
    prior: 0.05,
  },
];

/**
 * What is thought of sizes before a hold is seen (judgement from fact-book cases: a leak of 1000 micron in 10 min,
 * outgassing that ends a few hundred to 1500 micron up). Pa, s, K.
 */
export const beliefs = {
  /** Rise by a leak, Pa/s: 0.3 is 1350 micron in 10 min; 95 % from 7 Pa to 3.4 kPa in 10 min. */
  leak: { ln: Math.log(0.3), sd: 1.5 },
  /** Whole rise, or its scale, by outgassing, Pa. */
  gas: {
    exponential: { ln: Math.log(90), sd: 0.7 },
    logarithmic: { ln: Math.log(45), sd: 0.7 },
    "square-root": { ln: Math.log(45), sd: 0.7 },
  },
  /** Time of outgassing and of a wet system's approach, s. */
  gasTime: { ln: Math.log(240), sd: 0.8 },
  waterTime: { ln: Math.log(300), sd: 0.9 },
  /** Water's place against the thermometer, K. */
  wetSpot: 1.5,
  /** Drift of the temperature over the hold where nobody wrote it down, and where every row has it, K. */
  drift: { unknown: 1.5, known: 0.2 },
  /** Ice on its way to melting, Pa: 1000 to 4600 micron. */
  ice: { ln: Math.log(285), sd: 0.4 },
  /** Random error as a share of the reading. */
  noise: { ln: Math.log(0.008), sd: 0.8 },
} as const;

/** Relative change of water's vapour pressure per kelvin near room temperature. */
const WATER_PER_KELVIN = 0.062;

/** Everything linear about a model at one time constant: columns, nuisances first. */
export interface Design {
  readonly columns: readonly Float64Array[];
  readonly nuisances: readonly NormalPrior[];
  readonly positive: readonly LognormalPrior[];
}

const slowed: Readonly<Record<Slowing, (x: number) => number>> = {
  exponential: (x) => -Math.expm1(-x),
  logarithmic: (x) => Math.log1p(x),
  "square-root": (x) => Math.sqrt(1 + x) - 1,
};

/** Pressure of water at a temperature within its equation; outside, none of it is liquid enough to matter. */
function waterAt(T: number): number {
  const found = waterSaturation(T);
  return found.kind === "pressure" ? found.p : NaN;
}

/** The time constant's prior; none where the model has no time constant. */
export const timePrior = ({ source }: HoldModel): LognormalPrior | undefined => {
  if (!source) return undefined;
  return source.kind === "gas" ? beliefs.gasTime : beliefs.waterTime;
};

/**
 * Columns and priors of a model.
 *
 * Gas in the system follows its temperature; a wet system follows water's pressure at it.
 *
 * @param uGauge Relative standard uncertainty of the gauge's scale: a plateau is read through it.
 * @param tau    Time constant, s; of no meaning where the model has none.
 */
export function designOf(
  model: HoldModel,
  hold: PreparedHold,
  uGauge: number,
  tau: number,
): Design {
  const { t, p, T } = hold;
  const first = p[0] ?? 0;
  const warm = T.map((one) => one / (T[0] ?? one));
  const start: NormalPrior = { mean: first, sd: Math.max(20, 0.3 * first) };
  const share = hold.temperatureKnown ? beliefs.drift.known : beliefs.drift.unknown;
  const span = Math.max(t[t.length - 1] ?? 0, 1e-9);
  const drift: NormalPrior = { mean: 0, sd: share / (T[0] ?? 293) };
  const { source } = model;
  const leak = model.leak ? [t.map((one, i) => one * (warm[i] ?? 1))] : [];
  const leakPrior = model.leak ? [beliefs.leak] : [];
  if (source?.kind !== "water") {
    const rise = source && [t.map((one, i) => slowed[source.slowing](one / tau) * (warm[i] ?? 1))];
    const drifting = hold.level.map((one, i) => (one * (t[i] ?? 0)) / span);
    return {
      columns: [warm, drifting, ...leak, ...(rise ?? [])],
      nuisances: [start, drift],
      positive: [...leakPrior, ...(source ? [beliefs.gas[source.slowing]] : [])],
    };
  }
  const water = T.map(waterAt);
  const full = water[0] ?? NaN;
  const fading = t.map((one) => Math.exp(-one / tau));
  const plateau = t.map((_, i) => (1 - (fading[i] ?? 0)) * ((water[i] ?? 0) / full));
  const drifting = t.map((one, i) => (((1 - (fading[i] ?? 0)) * one) / span) * full);
  const isIce = source.over === "ice";
  const wetDrift: NormalPrior = { mean: 0, sd: isIce ? 1e-6 : WATER_PER_KELVIN * share };
  const spot: LognormalPrior = {
    ln: Math.log(full),
    sd: Math.hypot(uGauge, WATER_PER_KELVIN * beliefs.wetSpot),
  };
  return {
    columns: [fading, drifting, ...leak, plateau],
    nuisances: [start, wetDrift],
    positive: [...leakPrior, isIce ? beliefs.ice : spot],
  };
}
