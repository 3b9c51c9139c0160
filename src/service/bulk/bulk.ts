import {
  type MixOutcome,
  type MixPhase,
  mixStateTP,
  mixStateTRho,
  type PairEstimate,
  type PhaseProperties,
  type PureFluid,
  saturatedPhases,
  saturationAtT,
  type State,
  type StateOutcome,
  stateTP,
  stateTRho,
} from "../../fluids/index.ts";
import type { Part } from "../substances/composition.ts";
import { type BulkFailure, ofMixture, ofPure } from "./bulk-failure.ts";
import { massOf, type Material, namedFractions } from "./material.ts";

/** One phase of a bulk, per kg of it. kg/m3, J/kg, J/(kg K), m/s. */
export interface BulkPhase {
  /** Beyond the critical point no more than dense or thin. */
  readonly kind: "liquid" | "vapour";
  /** Of the mass of the bulk. */
  readonly share: number;
  /** Of its volume. */
  readonly volumeShare: number;
  readonly rho: number;
  readonly h: number;
  readonly s: number;
  readonly cv: number;
  readonly cp: number;
  readonly w: number;
  readonly moles: readonly Part[];
  readonly mass: readonly Part[];
}

/** A material in equilibrium: one phase or two. K, Pa, kg/m3, J/kg, J/(kg K). */
export interface Bulk {
  readonly kind: "bulk";
  readonly T: number;
  readonly p: number;
  readonly rho: number;
  readonly h: number;
  readonly s: number;
  readonly u: number;
  /** Vapour fractions, by mole and by mass: 0 of a liquid, 1 of a vapour. */
  readonly beta: number;
  readonly quality: number;
  /** Liquid first. */
  readonly phases: readonly BulkPhase[];
  /** Pairs of fluids whose parameters are estimates. */
  readonly estimates: readonly PairEstimate[];
}

export type BulkOutcome = Bulk | BulkFailure;

/**
 * State of a material at a temperature and density: what a closed vessel comes to.
 *
 * @param T, rho  K, kg/m3.
 * @throws        RangeError for a number that is not finite: the caller's bug.
 */
export function bulkAtTRho(material: Material, T: number, rho: number): BulkOutcome {
  const molar = rho / material.M;
  return material.kind === "pure"
    ? pureBulk(material, stateTRho(material.fluid, T, molar))
    : mixtureBulk(material, mixStateTRho(material.mix, material.z, T, molar));
}

/** State of a material at a temperature, K, and pressure, Pa; see {@link bulkAtTRho}. */
export function bulkAtTP(material: Material, T: number, p: number): BulkOutcome {
  return material.kind === "pure"
    ? pureBulk(material, stateTP(material.fluid, T, p))
    : mixtureBulk(material, mixStateTP(material.mix, material.z, T, p));
}

/** A mixture's state per kg, or why there is none. */
export function mixtureBulk(material: Material, outcome: MixOutcome): BulkOutcome {
  if (outcome.kind === "failed") return ofMixture(outcome, material.M);
  const { T, p, h, s, u, beta, M, phases, estimates } = outcome;
  const rho = outcome.rho * M;
  const shareOf = ({ kind, M: ofPhase }: MixPhase): number => {
    if (phases.length === 1) return 1;
    return ((kind === "vapour" ? beta : 1 - beta) * ofPhase) / M;
  };
  const views = phases.map((phase) => {
    const share = shareOf(phase);
    return mixturePhase(material, phase, {
      share,
      volumeShare: (share * rho) / (phase.rho * phase.M),
    });
  });
  const quality = views.reduce(
    (sum, { kind, share }) => (kind === "vapour" ? sum + share : sum),
    0,
  );
  const bulk = { T, p, rho, h: h / M, s: s / M, u: u / M, beta, quality };
  return { kind: "bulk", ...bulk, phases: views, estimates };
}

interface Shares {
  readonly share: number;
  readonly volumeShare: number;
}

function mixturePhase(material: Material, phase: MixPhase, shares: Shares): BulkPhase {
  const { kind, x, rho, h, s, cv, cp, w, M } = phase;
  const moles = namedFractions(material, x);
  const specific = { rho: rho * M, h: h / M, s: s / M, cv: cv / M, cp: cp / M, w };
  return { kind, ...shares, ...specific, moles, mass: massOf(moles) };
}

function pureBulk(material: Material & { kind: "pure" }, outcome: StateOutcome): BulkOutcome {
  const { fluid, M } = material;
  if (outcome.kind === "failed") return ofPure(outcome, M);
  const { T, p, h, s, u } = outcome;
  const rho = outcome.rho * M;
  const phases = purePhases(fluid, outcome).map(({ kind, share, of }): BulkPhase => {
    const specific = { h: of.h / M, s: of.s / M, cv: of.cv / M, cp: of.cp / M, w: of.w };
    const volumeShare = (share * outcome.rho) / of.rho;
    const whole = material.moles;
    return { kind, share, volumeShare, rho: of.rho * M, ...specific, moles: whole, mass: whole };
  });
  const quality = outcome.q ?? (phases[0]?.kind === "vapour" ? 1 : 0);
  const bulk = { T, p, rho, h: h / M, s: s / M, u: u / M, beta: quality, quality };
  return { kind: "bulk", ...bulk, phases, estimates: [] };
}

/** The phases of a pure fluid's state, molar. */
function purePhases(fluid: PureFluid, state: State) {
  const { q, T, rho, h, s, cv, cp, w } = state;
  const saturation = q === null ? undefined : saturationAtT(fluid, T);
  if (q === null || saturation?.kind !== "saturated") {
    const kind = rho > fluid.critical.rho ? ("liquid" as const) : ("vapour" as const);
    const of: PhaseProperties = { rho, h, s, cv: cv ?? 0, cp: cp ?? 0, w: w ?? 0 };
    return [{ kind, share: 1, of }];
  }
  const { liquid, vapour } = saturatedPhases(fluid, saturation);
  return [
    { kind: "liquid" as const, share: 1 - q, of: liquid },
    { kind: "vapour" as const, share: q, of: vapour },
  ];
}
