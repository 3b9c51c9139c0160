import type { Answer } from "../../calculations/index.ts";

/** What the calculations of this page answer, as far as the page shows it. SI, absolute, per kg. */

export interface Composition {
  readonly fluid: string;
  readonly mass: number;
  readonly mole: number;
}

/** `saturation` of a pure fluid. */
export interface PureSaturation {
  readonly T: number;
  readonly p: number;
  readonly rhoL: number;
  readonly rhoV: number;
  readonly hL: number;
  readonly hV: number;
}

export interface SaturationPoint {
  readonly T: number;
  readonly p: number;
  readonly rho: number;
  readonly h: number;
  /** Of the other phase: the first bubble, or the first drop. */
  readonly composition: readonly Composition[];
}

/** `saturation` of a blend. */
export interface BlendSaturation {
  readonly bubble: SaturationPoint | null;
  readonly dew: SaturationPoint | null;
  readonly glide?: number | null;
  readonly missing?: readonly { readonly which: "bubble" | "dew"; readonly because: string }[];
}

export type Saturation = PureSaturation | BlendSaturation;

export const isBlend = (saturation: Saturation): saturation is BlendSaturation =>
  "bubble" in saturation;

export interface Fact {
  readonly fluid: string;
  readonly what: string;
  readonly from: number;
  readonly to: number;
  readonly unit: string;
  readonly source: string;
  readonly trust: "published" | "cross-checked" | "memory" | "shaky";
}

export interface FlameLimit {
  readonly volumePercent: number;
  readonly massPerVolume: number;
}

/** `flammability`. */
export interface Flame {
  readonly class: string | null;
  readonly behavesAs?: string;
  readonly burns: "yes" | "no" | "treat-as-burning" | "unknown";
  readonly rule: "listed" | "le-chatelier" | "none";
  readonly lfl: FlameLimit | null;
  readonly limits: readonly (FlameLimit & {
    readonly table: "ashrae" | "isoEn" | "other" | "blend";
  })[];
  readonly facts: readonly Fact[];
}

/** `climate`. */
export interface Climate {
  readonly gwp: readonly {
    readonly edition: string;
    readonly value: number | null;
    readonly from: number;
    readonly to: number | null;
    readonly missing: readonly string[];
    readonly trust: Fact["trust"];
  }[];
  readonly ozone: { readonly value: number | null; readonly from: number };
  readonly facts: readonly Fact[];
}

/** One phase of a vessel's contents. */
export interface PhaseView {
  readonly kind: "liquid" | "vapour";
  readonly share: number;
  readonly volumeShare: number;
  readonly composition: readonly Composition[];
}

/** `vessel`. */
export interface VesselContents {
  readonly p: number;
  readonly gauge: number;
  readonly liquidFraction: number;
  readonly liquidVolumeFraction: number;
  readonly phases: readonly PhaseView[];
}

/** `withdraw`. */
export interface WithdrawalSeries {
  readonly from: "top" | "bottom";
  readonly points: readonly {
    readonly left: number;
    readonly p: number;
    readonly drawn: "liquid" | "vapour";
    readonly leaving: readonly Composition[];
    readonly remaining: readonly Composition[];
  }[];
  readonly ended?: string;
}

/** `air-in-system`. */
export interface AirInside {
  readonly points: readonly {
    readonly T: number;
    readonly p: number;
    readonly without: number;
    readonly excess: number;
    readonly inVapour: number;
  }[];
}

interface Columns {
  readonly T: readonly number[];
  readonly p: readonly number[];
  readonly h: readonly number[];
}
interface DiagramLine {
  readonly pieces: readonly Columns[];
}

/** `phase-diagram`. */
export interface PhaseDiagram {
  readonly critical: { readonly T: number; readonly p: number; readonly h: number } | null;
  readonly bubble: DiagramLine;
  readonly dew: DiagramLine;
  readonly isotherms: readonly { readonly T: number; readonly line: DiagramLine }[];
  readonly fractions: readonly { readonly fraction: number; readonly line: DiagramLine }[];
}

/** `cycle`. */
export interface Loop {
  readonly corners: readonly {
    readonly place: "suction" | "discharge" | "liquid" | "evaporator-inlet";
    readonly T: number;
    readonly p: number;
    readonly h: number;
  }[];
  readonly compression: "isentropic" | "measured";
  readonly runs: boolean;
  readonly cooling: number | null;
  readonly work: number | null;
  readonly cop: number | null;
}

/** `state`. */
export interface StateFound {
  readonly T: number;
  readonly p: number;
  readonly h: number;
  readonly phase: string;
}

/** The result of each calculation by its name. */
export interface Results {
  readonly saturation: Saturation;
  readonly flammability: Flame;
  readonly climate: Climate;
  readonly vessel: VesselContents;
  readonly withdraw: WithdrawalSeries;
  readonly "air-in-system": AirInside;
  readonly "phase-diagram": PhaseDiagram;
  readonly cycle: Loop;
  readonly state: StateFound;
  readonly "water-boiling": { readonly p: number };
}

/** The result of an answered request; undefined for one that has none. */
export function resultOf<Name extends keyof Results>(
  _name: Name,
  answer: Answer | undefined,
): Results[Name] | undefined {
  // The calculation's own schema is tested to be what its result is; the caller names the same calculation.
  return answer?.kind === "answer" ? (answer.result as Results[Name]) : undefined;
}
