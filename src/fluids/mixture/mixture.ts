import binaryPairs from "../../../data/mixtures/binary-pairs.json";
import departures from "../../../data/mixtures/departures.json";
import { fluid } from "../fluid.ts";
import { fluidIds, type FluidId } from "../fluid-id.ts";
import type { PureFluid } from "../pure-fluid.ts";
import { compileResidual, type ResidualModel } from "../residual-model.ts";
import { createMixtureWork, type MixtureWork } from "./mixture-work.ts";
import { pairKey, parseDepartureFile, parsePairFile, type PairParameters } from "./pair-file.ts";
import type { Reducing } from "./reducing.ts";

/** Gas constant of mixtures, J/(mol K): the exact one of the SI. */
export const mixtureR = 8.31446261815324;

/** How the parameters of a pair without published ones are estimated. */
export type CombiningRule =
  /** T_r and 1/ρ_r of the pair are linear in composition. */
  | "linear"
  /** All βs and γs are 1: quadratic in composition with geometric and cubic means. */
  | "quadratic";

/** A pair whose parameters are no fit to measurements: what is computed with it is an estimate. */
export interface PairEstimate {
  readonly pair: readonly [FluidId, FluidId];
  /** `published-unfitted`: printed by the authors of the model, but inferred by a combining rule. */
  readonly rule: CombiningRule | "published-unfitted";
}

/** Part of a departure function in a pair: x_i·x_j·F·αʳ_(function). */
export interface PairDeparture {
  readonly i: number;
  readonly j: number;
  readonly F: number;
  /** Index into `Mixture.models`. */
  readonly model: number;
}

/** Limits in which the equations of all components are valid. K, Pa. */
export interface MixtureLimits {
  readonly Tmin: number;
  readonly Tmax: number;
  readonly pmax: number;
}

/** A mixture model of 1 to 8 fluids, ready to compute at any composition. Molar basis. */
export interface Mixture {
  readonly n: number;
  readonly ids: readonly FluidId[];
  readonly fluids: readonly PureFluid[];
  /** Molar masses, kg/mol. */
  readonly M: Float64Array;
  readonly Tr: Reducing;
  readonly vr: Reducing;
  /** Residual parts: of the components, then of the departure functions in use. */
  readonly models: readonly ResidualModel[];
  readonly departures: readonly PairDeparture[];
  readonly limits: MixtureLimits;
  readonly estimates: readonly PairEstimate[];
  /** Sources of the binary parameters in use. */
  readonly sources: readonly string[];
  /** Scratch of the convenient functions; no call leaves anything in it that another one reads. */
  readonly work: MixtureWork;
}

/** More than these have no use in refrigerants, and scratch is sized by it. */
const maxComponents = 8;

let pairFile: ReadonlyMap<string, PairParameters> | undefined;
let departureFile: ReturnType<typeof parseDepartureFile> | undefined;
/** Mixtures built so far; a stranger's endless new ones must not fill the memory. */
const built = new Map<string, Mixture>();
const mostBuilt = 256;

/**
 * The mixture model of some fluids; built at the first request and kept for the next ones.
 *
 * @param ids   1 to 8 different fluids; compositions are given in their order.
 * @param rule  Estimate for pairs without published parameters; default `linear`.
 * @throws      RangeError for an unknown or repeated fluid or a wrong number: the caller's bug.
 *
 * Limits: two fluid phases, liquid and vapour; liquid-liquid splits and solids are not sought.
 * Source: Kunz and Wagner, J. Chem. Eng. Data 57 (2012) 3032; of each pair in `sources`
 */
export function mixture(ids: readonly FluidId[], rule: CombiningRule = "linear"): Mixture {
  const key = `${rule} ${ids.join("+")}`;
  const known = built.get(key);
  if (known) return known;
  if (ids.length < 1 || ids.length > maxComponents) {
    throw new RangeError(`a mixture has 1 to ${maxComponents} fluids, got ${ids.length}`);
  }
  for (const [k, id] of ids.entries()) {
    if (!fluidIds.includes(id)) throw new RangeError(`no fluid ${id as string}`);
    if (ids.indexOf(id) !== k) throw new RangeError(`fluid ${id} is given twice`);
  }
  const fresh = build(ids, rule);
  const oldest = built.keys().next();
  if (built.size >= mostBuilt && oldest.done !== true) built.delete(oldest.value);
  built.set(key, fresh);
  return fresh;
}

function build(ids: readonly FluidId[], rule: CombiningRule): Mixture {
  const fluids = ids.map(fluid);
  const n = ids.length;
  const pairs = pairsOf(fluids, rule);
  const names = [...new Set(pairs.flatMap((pair) => pair.departure ?? []))];
  departureFile ??= parseDepartureFile(departures);
  const models = [
    ...fluids.map((each) => each.residual),
    ...names.map((name) => compileResidual(termsOf(name))),
  ];
  const model = (name: string): number => n + names.indexOf(name);
  const parts = {
    n,
    ids: [...ids],
    fluids,
    M: Float64Array.from(fluids, (each) => each.info.M),
    Tr: reducingOf(fluids, pairs, "T"),
    vr: reducingOf(fluids, pairs, "V"),
    models,
    departures: pairs.flatMap(({ i, j, F, departure }) =>
      departure === null || F === 0 ? [] : [{ i, j, F, model: model(departure) }],
    ),
    limits: {
      Tmin: Math.max(...fluids.map((each) => each.info.Tmin)),
      Tmax: Math.min(...fluids.map((each) => each.info.Tmax)),
      pmax: Math.min(...fluids.map((each) => each.info.pmax)),
    },
    estimates: pairs.flatMap((pair) => pair.estimate ?? []),
    sources: [...new Set(pairs.flatMap((pair) => pair.source ?? []))],
  };
  return { ...parts, work: createMixtureWork(parts) };
}

function termsOf(
  name: string,
): ReturnType<typeof parseDepartureFile> extends ReadonlyMap<string, infer Terms> ? Terms : never {
  const terms = departureFile?.get(name);
  if (!terms) throw new Error(`departures.json has no function ${name}`);
  return terms;
}

interface OrderedPair {
  readonly i: number;
  readonly j: number;
  readonly betaT: number;
  readonly gammaT: number;
  readonly betaV: number;
  readonly gammaV: number;
  readonly F: number;
  readonly departure: string | null;
  readonly source?: string;
  readonly estimate?: PairEstimate;
}

/** The pairs i < j, row by row, with parameters for that order. */
function pairsOf(fluids: readonly PureFluid[], rule: CombiningRule): readonly OrderedPair[] {
  return fluids.flatMap((first, i) =>
    fluids.slice(i + 1).map((second, k) => orderedPair(first, second, { i, j: i + 1 + k, rule })),
  );
}

function orderedPair(
  first: PureFluid,
  second: PureFluid,
  { i, j, rule }: { readonly i: number; readonly j: number; readonly rule: CombiningRule },
): OrderedPair {
  const pair = [first.info.id, second.info.id] as const;
  pairFile ??= parsePairFile(binaryPairs);
  const found = pairFile.get(pairKey(...pair));
  if (!found) {
    const gammas = rule === "linear" ? linearGammas(first, second) : { gammaT: 1, gammaV: 1 };
    const estimate = { pair, rule };
    return { i, j, betaT: 1, betaV: 1, ...gammas, F: 0, departure: null, estimate };
  }
  const { betaT, betaV, gammaT, gammaV, F, departure, quality, source } = found;
  const swapped = found.fluid1 !== first.info.id;
  return {
    i,
    j,
    betaT: swapped ? 1 / betaT : betaT,
    gammaT,
    betaV: swapped ? 1 / betaV : betaV,
    gammaV,
    F,
    departure,
    source,
    ...(quality.startsWith("UNFITTED")
      ? { estimate: { pair, rule: "published-unfitted" as const } }
      : {}),
  };
}

/** γs that make T_r and 1/ρ_r of a pair linear in composition. */
function linearGammas(a: PureFluid, b: PureFluid): { gammaT: number; gammaV: number } {
  return {
    gammaT: (0.5 * (a.Tr + b.Tr)) / Math.sqrt(a.Tr * b.Tr),
    gammaV: (0.5 * (1 / a.rhor + 1 / b.rhor)) / cubicMean(a.rhor, b.rhor),
  };
}

function cubicMean(rho1: number, rho2: number): number {
  return (1 / Math.cbrt(rho1) + 1 / Math.cbrt(rho2)) ** 3 / 8;
}

function reducingOf(
  fluids: readonly PureFluid[],
  pairs: readonly OrderedPair[],
  which: "T" | "V",
): Reducing {
  const byT = which === "T";
  const mean = (a: PureFluid, b: PureFluid): number =>
    byT ? Math.sqrt(a.Tr * b.Tr) : cubicMean(a.rhor, b.rhor);
  const beta = (pair: OrderedPair): number => (byT ? pair.betaT : pair.betaV);
  const gamma = (pair: OrderedPair): number => (byT ? pair.gammaT : pair.gammaV);
  return {
    n: fluids.length,
    pure: Float64Array.from(fluids, (each) => (byT ? each.Tr : 1 / each.rhor)),
    c: Float64Array.from(
      pairs,
      (pair) => 2 * beta(pair) * gamma(pair) * mean(fluids[pair.i], fluids[pair.j]),
    ),
    b: Float64Array.from(pairs, (pair) => beta(pair) ** 2),
  };
}
