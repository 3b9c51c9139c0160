import { fluid as fluidOf, fluidInfo, mixture } from "../../fluids/index.ts";
import type { Masses } from "./detect.ts";
import { burstPressure, type Cell, type Family } from "./families.ts";
import { type AtRest, createBoilingWork, type Fill, settle } from "./settle.ts";
import { type Boiling, boilingAt, R } from "./surface.ts";

/** How full something is, where no mass and volume say it: share of liquid by volume (common practice, no source). */
export const LIQUID_SHARES = {
  can: { from: 0.35, to: 0.9 },
  vehicle: { from: 0.05, to: 0.4 },
} as const;

/** Filling of a vessel as far as it is known. */
export interface VesselFill {
  readonly vessel: "can" | "vehicle";
  /** Contents by volume, kg/m³, when weighed and measured. */
  readonly density?: number;
  /** An open vessel boils: all liquid, no vapour to speak of. */
  readonly open?: boolean;
}

/**
 * What one part of a family would show at a point of its unit cube. The last coordinate is the share of liquid where
 * that is not known; the ones before give the composition.
 */
export interface Matter {
  readonly family: Family;
  readonly cell: Cell;
  readonly dimensions: number;
  /** Relative standard uncertainty of its pressures beside the equations of pure fluids: shared by all readings. */
  readonly modelU: number;
  /** The same, but apart for each reading: only what fits nothing has it. */
  readonly scatterU: number;
  /** Moves to a point; the answers below belong to it until the next move. */
  place(u: Float64Array): void;
  masses(): Masses;
  /** Pa; `undefined` where it cannot be. `liquidShare` of the last answer stands in {@link Matter.state}. */
  pressure(T: number, fill: VesselFill): number | undefined;
  /** Liquid's density, kg/m³. */
  liquidDensity(T: number): number | undefined;
  readonly state: AtRest;
}

/** Of pressures from the fitted tables against the exact flash: see surface.test.ts. */
const TABLE_U = 0.004;
/** Added for mixtures with pairs whose parameters are estimates: half the usual spread of two combining rules. */
const ESTIMATE_U = 0.02;
/** Blends of very unlike parts, whose liquid's change of composition the fixed tables do not follow. */
const UNLIKE_U = 0.02;
const PURE_U = 0.001;

export function matterOf(family: Family, cell: Cell): Matter {
  if (family.kind === "gas") return gasMatter(family, cell);
  if (family.kind === "none") return unknownMatter(family, cell);
  return boilingMatter(family, cell);
}

function modelUOf({ fluids, center }: Family, { among = fluids }: Cell): number {
  if (fluids.length === 1) return PURE_U;
  const estimated = mixture(among).estimates.length > 0;
  const unlike = center !== undefined && fluids.includes("R744");
  return TABLE_U + (estimated ? ESTIMATE_U : 0) + (unlike ? UNLIKE_U : 0);
}

/** What the tables miss apart for each temperature, relative: see surface.test.ts. */
const SCATTER_U = { table: 0.001, air: 0.012, unlike: 0.02, nearCritical: 0.03 } as const;
/** Fluids that have their critical point in the range of readings, K. */
const LOW_CRITICAL = 325;

function scatterUOf({ fluids, center }: Family): number {
  const [first] = fluids;
  if (fluids.length === 1 && first) {
    return fluidOf(first).critical.T < LOW_CRITICAL ? SCATTER_U.nearCritical : 0;
  }
  if (fluids.includes("R728")) return SCATTER_U.air;
  return center !== undefined && fluids.includes("R744") ? SCATTER_U.unlike : SCATTER_U.table;
}

function boilingMatter(family: Family, cell: Cell): Matter {
  const { fluids } = family;
  const masses = new Float64Array(8);
  const z = new Float64Array(8);
  const M = fluids.map((id) => fluidInfo(id).M);
  const work = createBoilingWork();
  const state: AtRest = { p: 0, liquidShare: 0, rhoL: 0 };
  const tables = new Map<number, Boiling | undefined>();
  let [molar, spare] = [0, 0.5];
  const needsShare = fluids.length > 1;
  const holdsAir = fluids.includes("R728");
  const at = (T: number): Boiling | undefined => {
    if (!tables.has(T)) tables.set(T, boilingAt(family, T));
    return tables.get(T);
  };
  const fillOf = ({ density, open, vessel }: VesselFill): Fill => {
    if (open) return { kind: "share", share: 1 };
    if (density !== undefined) return { kind: "density", rho: density / molar };
    const { from, to } = LIQUID_SHARES[vessel];
    return { kind: "share", share: from + spare * (to - from) };
  };
  return {
    family,
    cell,
    dimensions: cell.dimensions + (needsShare ? 1 : 0),
    modelU: modelUOf(family, cell),
    scatterU: scatterUOf(family),
    state,
    place(u) {
      cell.place(u, masses);
      let moles = 0;
      for (const [i, each] of M.entries()) {
        z[i] = (masses[i] ?? 0) / each;
        moles += z[i] ?? 0;
      }
      for (let i = 0; i < M.length; i++) z[i] = (z[i] ?? 0) / moles;
      molar = 1 / moles;
      spare = needsShare ? (u[cell.dimensions] ?? 0.5) : 0.5;
    },
    masses: () => ({ fluids, share: masses }),
    pressure(T, fill) {
      const boiling = at(T);
      if (!boiling) return undefined;
      settle(boiling, z, fillOf(fill), work, state);
      if (holdsAir && state.p > burstPressure[fill.vessel]) return undefined;
      return state.liquidShare > MOST_LIQUID ? undefined : state.p;
    },
    liquidDensity(T) {
      const boiling = at(T);
      if (!boiling) return undefined;
      settle(boiling, z, { kind: "share", share: 1 }, work, state);
      return state.rhoL * molar;
    },
  };
}

/** More liquid than the vessel holds, the errors of volume and mass allowed for. */
const MOST_LIQUID = 1.08;

/** Pressures of compressed gas at 20 °C, Pa: every ratio equally probable. */
const GAS = { from: 2e5, to: 1.5e7, T: 293.15, M: 0.029 } as const;

function gasMatter(family: Family, cell: Cell): Matter {
  let p = 0;
  return {
    family,
    cell,
    dimensions: cell.dimensions,
    modelU: 0.01,
    scatterU: 0,
    state: { p: 0, liquidShare: 0, rhoL: 0 },
    place(u) {
      p = GAS.from * (GAS.to / GAS.from) ** (u[0] ?? 0.5);
    },
    masses: () => ({ fluids: ["R728"], share: [1] }),
    pressure: (T, { density, open }) => {
      if (open) return undefined;
      return density === undefined ? (p * T) / GAS.T : (density * R * T) / GAS.M;
    },
    liquidDensity: () => undefined,
  };
}

/** A fluid that nobody listed: any boiling point, slope and density that refrigerants come near. */
const UNKNOWN = {
  boils: { from: 170, to: 320 },
  /** ln p rises by this much from 0 to the boiling point's own temperature scale; 9.9 to 11.6 are known fluids. */
  slope: { from: 8.5, to: 13 },
  rho: { from: 300, to: 2200 },
  /** Relative: readings that fit no fluid at all. */
  scatter: { from: 0.005, to: 0.4 },
} as const;
const within = ({ from, to }: { from: number; to: number }, u: number): number =>
  from + u * (to - from);

function unknownMatter(family: Family, cell: Cell): Matter {
  let scatterU = 0;
  const state: AtRest = { p: 0, liquidShare: 0, rhoL: 0 };
  let [Tb, slope, rho] = [250, 10.5, 1000];
  return {
    family,
    cell,
    dimensions: cell.dimensions,
    modelU: 0,
    get scatterU() {
      return scatterU;
    },
    state,
    place(u) {
      Tb = within(UNKNOWN.boils, u[0] ?? 0.5);
      slope = within(UNKNOWN.slope, u[1] ?? 0.5);
      rho = within(UNKNOWN.rho, u[2] ?? 0.5);
      scatterU =
        UNKNOWN.scatter.from * (UNKNOWN.scatter.to / UNKNOWN.scatter.from) ** (u[3] ?? 0.5);
    },
    masses: () => undefined,
    pressure: (T, { density }) => {
      state.p = 101_325 * Math.exp(slope * (1 - Tb / T));
      state.rhoL = rho;
      state.liquidShare = density === undefined ? 0.7 : density / rho;
      return state.p;
    },
    liquidDensity: () => rho,
  };
}
