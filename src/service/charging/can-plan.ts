import { bulkAtTP } from "../bulk/bulk.ts";
import type { BulkFailure } from "../bulk/bulk-failure.ts";
import type { Material } from "../bulk/material.ts";
import { boilingLiquid, dewVapour } from "../recovery/liquid-density.ts";
import { chargingNumber } from "./charging-facts.ts";

/** A hose or any other pipe, m. */
export interface Hose {
  readonly bore: number;
  readonly length: number;
}

/** What a hose holds, m3 and kg. */
export interface HoseContents {
  readonly kind: "hose";
  readonly volume: number;
  /** Full of liquid at its bubble point. */
  readonly liquid: number;
  /** Full of vapour at the pressure given. */
  readonly vapour: number;
}

/**
 * What a charging hose holds as liquid and as vapour.
 *
 * @param T K. @param p Pa absolute, of the vapour: at most the dew pressure counts.
 * Source: π d²/4 · length times the density
 * Checked: test/published/charging.test.ts
 */
export function hoseContents(
  material: Material,
  { bore, length }: Hose,
  T: number,
  p: number,
): HoseContents | BulkFailure {
  const volume = (Math.PI / 4) * bore * bore * length;
  const liquid = boilingLiquid(material, T);
  if (liquid.kind === "failed") return liquid;
  const rho = vapourDensity(material, T, p);
  if (typeof rho !== "number") return rho;
  return { kind: "hose", volume, liquid: volume * liquid.rho, vapour: volume * rho };
}

/** Density of the vapour at a pressure, and of the saturated one from there on, kg/m3. */
function vapourDensity(material: Material, T: number, p: number): number | BulkFailure {
  const dew = dewVapour(material, T);
  if (dew.kind === "failed" || p >= dew.p) return dew.kind === "failed" ? dew : dew.rho;
  const bulk = bulkAtTP(material, T, p);
  return bulk.kind === "failed" ? bulk : bulk.rho;
}

/** How a target is to be met out of cans: kg, m3, K, Pa absolute. */
export interface CanQuestion {
  readonly material: Material;
  readonly target: number;
  /** Net mass of a full can, and its volume where it was measured. */
  readonly net: number;
  readonly volume?: number | undefined;
  readonly T: number;
  /** Pressure at which nothing more flows: that of the low side. */
  readonly p: number;
  readonly hose: Hose;
}

/** kg. */
export interface CanPlan {
  readonly kind: "cans";
  readonly cans: number;
  /** Volume of a can, m3, measured or assumed. */
  readonly volume: number;
  readonly assumedVolume: boolean;
  /** Vapour that stays in an emptied can at the pressure of the system; and at saturation, if it only equalises. */
  readonly residue: number;
  readonly residueSaturated: number;
  readonly hose: HoseContents;
  /** What one can gives to the system. */
  readonly delivered: number;
  /** To be drawn from the last can, its hose filled: its scale shows this. */
  readonly lastDraw: number;
  /** What is left in the last can beyond the vapour that would stay anyway. */
  readonly spare: number;
}

/** More cans than anybody opens for one vehicle: the target or the net mass is wrong. */
const MOST_CANS = 100;

/**
 * How many cans a target takes, and what stays in cans and hose.
 *
 * Each can that is emptied keeps its vapour; the hose keeps its vapour once, because its liquid is cleared into the
 * system before it is taken off. No can gives less than nothing.
 *
 * @returns undefined for `cans` beyond a hundred: what a can gives is next to nothing.
 * Limits: slow, so all at one temperature. A can that cools while vapour is drawn gives less for a while.
 * Checked: charging.property.test.ts
 */
export function canPlan(question: CanQuestion): CanPlan | BulkFailure | undefined {
  const { material, target, net, T, p } = question;
  const liquid = boilingLiquid(material, chargingNumber("ambient").value);
  if (liquid.kind === "failed") return liquid;
  const volume = question.volume ?? net / (chargingNumber("canFill").value * liquid.rho);
  const hose = hoseContents(material, question.hose, T, p);
  if (hose.kind === "failed") return hose;
  const left = vapourDensity(material, T, p);
  if (typeof left !== "number") return left;
  const dew = dewVapour(material, T);
  if (dew.kind === "failed") return dew;
  const residue = Math.min(net, volume * left);
  const delivered = net - residue;
  const needed = target + hose.vapour;
  const cans = Math.max(1, Math.ceil(roundedUp(needed / delivered)));
  if (!(delivered > 0) || cans > MOST_CANS) return undefined;
  const lastDraw = needed - (cans - 1) * delivered;
  return {
    kind: "cans",
    cans,
    volume,
    assumedVolume: question.volume === undefined,
    residue,
    residueSaturated: Math.min(net, volume * dew.rho),
    hose,
    delivered,
    lastDraw,
    spare: delivered - lastDraw,
  };
}

/** 2.0000000001 cans are two. */
const roundedUp = (cans: number): number => Math.round(cans * 1e9) / 1e9;
