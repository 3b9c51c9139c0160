import { bulkAtTRho } from "../bulk/bulk.ts";
import type { BulkFailure } from "../bulk/bulk-failure.ts";
import type { Material } from "../bulk/material.ts";
import { findRoot } from "../../numerics/index.ts";
import { SEA_LEVEL_PRESSURE } from "../../air/index.ts";
import { boilingLiquid, densityDoubt, liquidFullTemperature } from "./liquid-density.ts";
import { recoveryNumber } from "./recovery-facts.ts";

/** A vessel that is to be filled: m3, kg, marked service pressure in Pa above the air, K. */
export interface FillQuestion {
  readonly material: Material;
  readonly waterCapacity: number;
  readonly tare: number;
  readonly rating?: number | undefined;
  readonly fillTemperature?: number | undefined;
}

/**
 * What each rule allows: so much liquid by volume at the filling temperature; never full of liquid up to the transport
 * temperature; never above its service pressure there (beyond the critical point, where mass makes the pressure).
 */
export interface FillRule {
  readonly rule: "liquid-share" | "never-full" | "pressure";
  readonly mass: number;
  /** K. */
  readonly T: number;
}

/** How much of a fluid or blend a vessel may hold. kg, K, Pa. */
export interface CylinderLimit {
  readonly kind: "limit";
  readonly maxMass: number;
  /** Standard uncertainty from the liquid's density alone. */
  readonly u: number;
  readonly maxGross: number;
  readonly rules: readonly FillRule[];
  readonly binding: FillRule["rule"];
  /** With `maxMass` inside; undefined where no liquid ever fills it. */
  readonly liquidFullTemperature: number | undefined;
  /** Liquid's part of the volume at 54.4 °C with `maxMass` inside; undefined above the critical point. */
  readonly warmShare: number | undefined;
  /** Absolute, at 54.4 and at 55 °C. */
  readonly pressureWarm: number;
  readonly pressureTransport: number;
  /** Least marked service pressure, above the air. */
  readonly minimumClass: number;
  readonly suits: boolean | undefined;
  readonly oldRule: OldRule;
}

/** Tare + 0.8 × water capacity, as old labels have it: it takes every refrigerant for water. */
export interface OldRule {
  readonly mass: number;
  readonly gross: number;
  /** Liquid's part of the volume at the filling temperature; above 1 it does not even go in. */
  readonly share: number;
  readonly liquidFullTemperature: number | undefined;
  /** More than `maxMass`. */
  readonly overfills: boolean;
}

const WATER = 1000;
const SEARCH = { relativeWidth: 1e-9 };

/**
 * The most that a vessel may hold of a fluid or blend, and what its pressure then does in the heat.
 *
 * A cold liquid is denser, and a mass that stands at 80 % there stands higher when it warms: a filling temperature
 * below 25 °C allows no more than 25 °C does.
 *
 * @throws RangeError for numbers that are not finite: the caller's bug.
 *
 * Limits: liquid at its bubble point fills the vessel; oil and air inside are not counted.
 * Source: AHRI Guideline K (80 % at 25 °C); 49 CFR 173.304(b) (never full to 55 °C), 173.304a(c) (pressure at 55 °C
 *         within 1.25 times the marked service pressure)
 * Checked: cylinder-limit.test.ts, test/published/cylinders.test.ts
 */
export function cylinderLimit(question: FillQuestion): CylinderLimit | BulkFailure {
  const { material, waterCapacity: V, tare, rating } = question;
  const usual = recoveryNumber("fillTemperature").value;
  const fillT = Math.max(question.fillTemperature ?? usual, usual);
  const liquid = boilingLiquid(material, fillT);
  if (liquid.kind === "failed") return liquid;
  const share = recoveryNumber("fillShare").value;
  const byShare: FillRule = { rule: "liquid-share", mass: share * V * liquid.rho, T: fillT };
  const rules = [byShare, ...warmRules(question)];
  const binding = rules.reduce((a, b) => (b.mass < a.mass ? b : a), byShare);
  const maxMass = binding.mass;
  const warm = heated(material, recoveryNumber("warmTemperature").value, maxMass / V);
  if (warm.kind === "failed") return warm;
  const transport = heated(material, recoveryNumber("transportTemperature").value, maxMass / V);
  if (transport.kind === "failed") return transport;
  const minimumClass =
    (transport.p - SEA_LEVEL_PRESSURE) / recoveryNumber("servicePressureFactor").value;
  return {
    kind: "limit",
    maxMass,
    u: densityDoubt(material) * maxMass,
    maxGross: tare + maxMass,
    rules,
    binding: binding.rule,
    liquidFullTemperature: liquidFullTemperature(material, maxMass / V),
    warmShare: warm.share,
    pressureWarm: warm.p,
    pressureTransport: transport.p,
    minimumClass,
    suits: rating === undefined ? undefined : rating >= minimumClass,
    oldRule: oldRuleOf(question, maxMass, liquid.rho),
  };
}

/** The rules of the transport temperature: which of them there is depends on the critical point. */
function warmRules({ material, waterCapacity: V, rating }: FillQuestion): readonly FillRule[] {
  const T = recoveryNumber("transportTemperature").value;
  const liquid = boilingLiquid(material, T);
  if (liquid.kind === "boiling") return [{ rule: "never-full", mass: V * liquid.rho, T }];
  if (rating === undefined) return [];
  const most = SEA_LEVEL_PRESSURE + recoveryNumber("servicePressureFactor").value * rating;
  const rho = densityAt(material, T, most);
  return rho === undefined ? [] : [{ rule: "pressure", mass: V * rho, T }];
}

/** Density, kg/m3, at which a supercritical fluid reaches a pressure. */
function densityAt(material: Material, T: number, p: number): number | undefined {
  const off = (rho: number): number => {
    const bulk = bulkAtTRho(material, T, rho);
    return bulk.kind === "bulk" ? bulk.p - p : Infinity;
  };
  const root = findRoot(off, 1e-3, 1200, SEARCH);
  return root.kind === "root" ? root.x : undefined;
}

/** Pressure and level of a closed vessel in the heat: of a boiling liquid, or of the one dense phase. */
function heated(
  material: Material,
  T: number,
  rho: number,
): { readonly kind: "hot"; readonly p: number; readonly share: number | undefined } | BulkFailure {
  const liquid = boilingLiquid(material, T);
  if (liquid.kind === "boiling") {
    const bulk = bulkAtTRho(material, T, rho);
    const level =
      bulk.kind === "bulk"
        ? bulk.phases.find(({ kind }) => kind === "liquid")?.volumeShare
        : undefined;
    return { kind: "hot", p: liquid.p, share: level ?? 0 };
  }
  const bulk = bulkAtTRho(material, T, rho);
  return bulk.kind === "failed" ? bulk : { kind: "hot", p: bulk.p, share: undefined };
}

function oldRuleOf(
  { material, waterCapacity: V, tare }: FillQuestion,
  maxMass: number,
  rho: number,
): OldRule {
  const mass = recoveryNumber("fillShare").value * V * WATER;
  return {
    mass,
    gross: tare + mass,
    share: mass / (V * rho),
    liquidFullTemperature: liquidFullTemperature(material, mass / V),
    overfills: mass > maxMass,
  };
}
