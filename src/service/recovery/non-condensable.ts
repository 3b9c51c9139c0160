import type { FluidId } from "../../fluids/index.ts";
import type { BulkFailure } from "../bulk/bulk-failure.ts";
import type { Material } from "../bulk/material.ts";
import { COVERAGE } from "../accuracy.ts";
import { boilingLiquid, dewVapour } from "./liquid-density.ts";
import { airMargin, containerTable, containerTableSource } from "./recovery-facts.ts";

/** A container at rest: K and Pa absolute; standard uncertainties where instruments are known. */
export interface ContainerReading {
  readonly material: Material;
  readonly T: number;
  readonly p: number;
  /** Of the pressure, the temperature's part included; undefined when nobody stated it. */
  readonly u?: number | undefined;
}

/**
 * `pass`: not above the limit. `air`: above it. `undecided`: within the readings' uncertainty of it.
 * `within-glide`: between dew and bubble pressure of a blend, where the level of the liquid decides.
 * `no-test`: below saturation, so no liquid is inside, it is colder, or it is something else.
 */
export type AirVerdict = "pass" | "air" | "undecided" | "within-glide" | "no-test";

/** Pa absolute. */
export interface AirCheck {
  readonly kind: "checked";
  readonly verdict: AirVerdict;
  /** Reading less the saturation (bubble) pressure: the partial pressure of air, if it is air. */
  readonly excess: number;
  /** Highest pressure that passes. */
  readonly limit: number;
  readonly saturation: number;
  /** Of a blend: below it no liquid is inside. */
  readonly dew: number;
  /** Air in the vapour, fraction by mole, if the excess is air. */
  readonly airFraction: number;
  readonly basis: "published-table" | "published-margin" | "carried-over";
  readonly source: string;
}

/**
 * Colder by this much than it was read, K, a container is no longer what the thermometer says: 3 K is a poor contact
 * (common practice, no source).
 */
const COLDER = 3;

/** Limit of a published table between its rows; `undefined` outside of them. */
function tabulated(T: number): number | undefined {
  const at = containerTable.findIndex((row) => row.T >= T - 1e-6);
  const above = containerTable[at];
  if (!above) return undefined;
  if (Math.abs(above.T - T) <= 1e-6) return above.p;
  const below = containerTable[at - 1];
  if (!below) return undefined;
  return below.p + ((above.p - below.p) * (T - below.T)) / (above.T - below.T);
}

interface Limit {
  readonly limit: number;
  readonly basis: AirCheck["basis"];
  readonly source: string;
}

function limitOf(fluid: FluidId | undefined, T: number, saturation: number): Limit {
  const published = fluid === "R12" ? tabulated(T) : undefined;
  if (published !== undefined) {
    return { limit: published, basis: "published-table", source: containerTableSource };
  }
  const { value, own, source } = airMargin(fluid);
  return { limit: saturation + value, basis: own ? "published-margin" : "carried-over", source };
}

/**
 * Whether a container holds air above its refrigerant, by pressure and temperature at rest.
 *
 * @throws RangeError for numbers that are not finite: the caller's bug.
 *
 * Limits: all of it at one temperature for hours, liquid inside. A blend with glide is known only above its bubble
 * pressure. Another fluid inside looks like air.
 * Source: 40 CFR 82 subpart B, appendix A (SAE J1989 5.1 to 5.7, table 1); margin of SAE J2211; carried over to others
 * Checked: non-condensable.test.ts
 */
export function airCheck({ material, T, p, u }: ContainerReading): AirCheck | BulkFailure {
  const bubble = boilingLiquid(material, T);
  if (bubble.kind === "failed") return bubble;
  const dew = dewVapour(material, T);
  if (dew.kind === "failed") return dew;
  const fluid = material.kind === "pure" ? material.fluid.info.id : undefined;
  const rule = limitOf(fluid, T, bubble.p);
  const cold = dewVapour(material, T - COLDER);
  const lowest = cold.kind === "failed" ? dew.p : cold.p;
  const excess = p - bubble.p;
  return {
    kind: "checked",
    verdict: verdictOf({ p, u, limit: rule.limit, bubble: bubble.p, dew: dew.p, lowest }),
    excess,
    ...rule,
    saturation: bubble.p,
    dew: dew.p,
    airFraction: Math.max(0, excess) / p,
  };
}

interface Compared {
  readonly p: number;
  readonly u: number | undefined;
  readonly limit: number;
  readonly bubble: number;
  readonly dew: number;
  readonly lowest: number;
}

/** Dew and bubble pressures this close are one, as part of either. */
const NO_GLIDE = 0.01;

function verdictOf({ p, u, limit, bubble, dew, lowest }: Compared): AirVerdict {
  if (p < lowest) return "no-test";
  if (u !== undefined && Math.abs(p - limit) < COVERAGE * u) return "undecided";
  if (p > limit) return "air";
  return bubble - dew > NO_GLIDE * bubble && p <= bubble ? "within-glide" : "pass";
}
