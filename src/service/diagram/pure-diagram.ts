import { type PureFluid, saturatedPhases, saturationAtT, stateTRho } from "../../fluids/index.ts";
import { bulkAtTP } from "../bulk/bulk.ts";
import type { Material } from "../bulk/material.ts";
import {
  type ChartRange,
  COLDEST,
  HIGHEST,
  HOTTEST,
  isothermsWithin,
  pressuresDown,
} from "./chart-range.ts";
import type { DiagramKind, PhaseDiagram } from "./diagram-shape.ts";
import { type ChartPoint, type Gap, lineOf, type Place, placeOf } from "./line.ts";

type Pure = Material & { readonly kind: "pure" };

/** Points along saturation, along an isotherm without boiling, and on either side of boiling. */
const SATURATION_POINTS = 61;
const ISOTHERM_POINTS = 31;
const [LIQUID_POINTS, VAPOUR_POINTS] = [7, 13];
const FRACTIONS = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];

/** Liquid and vapour at a temperature, per kg. */
interface SaturatedPair {
  readonly liquid: ChartPoint;
  readonly vapour: ChartPoint;
}

/** The lines of a pure fluid's diagram; see `phaseDiagram`. */
export function pureDiagram(material: Pure, kind: DiagramKind): PhaseDiagram {
  const range = rangeOf(material);
  const pairs = saturationTemperatures(material.fluid, range.T.from).map((T) =>
    saturatedPair(material, T),
  );
  const side = (of: (pair: SaturatedPair) => ChartPoint) =>
    lineOf(pairs.map((pair) => ("because" in pair ? pair : of(pair))));
  const full = kind === "pressure-enthalpy";
  return {
    range,
    critical: criticalPoint(material),
    bubble: side(({ liquid }) => liquid),
    dew: side(({ vapour }) => vapour),
    isotherms: full
      ? isothermsWithin(range.T).map((T) => ({ T, line: lineOf(isotherm(material, T, range)) }))
      : [],
    fractions: full
      ? FRACTIONS.map((fraction) => ({ fraction, line: side((pair) => between(pair, fraction)) }))
      : [],
  };
}

/** From the coldest temperature's saturation pressure to a little above the critical one. */
function rangeOf(material: Pure): ChartRange {
  const { info, critical } = material.fluid;
  const from = Math.max(info.Tmin, COLDEST * critical.T);
  const coldest = saturatedPair(material, from);
  // Every equation has saturation between its lowest and its critical temperature.
  if ("because" in coldest) throw new RangeError(`${info.id}: no saturation at ${String(from)} K`);
  return {
    T: { from, to: Math.min(info.Tmax, HOTTEST * critical.T) },
    p: { from: coldest.liquid.p, to: Math.min(info.pmax, HIGHEST * critical.p) },
  };
}

/** Equally far apart in √(1 − T/Tc), so that the dome is round at its top; the critical point included. */
function saturationTemperatures({ critical }: PureFluid, from: number): readonly number[] {
  const x = Math.sqrt(1 - from / critical.T);
  return Array.from({ length: SATURATION_POINTS }, (_, i) => {
    const share = 1 - i / (SATURATION_POINTS - 1);
    return share === 1 ? from : critical.T * (1 - (x * share) ** 2);
  });
}

function saturatedPair({ fluid, M }: Pure, T: number): SaturatedPair | Gap {
  const found = saturationAtT(fluid, T);
  if (found.kind === "out-of-range") return { quantity: "T", value: T, because: found.reason };
  const { p } = found;
  const { liquid, vapour } = saturatedPhases(fluid, found);
  const point = ({ rho, h, s }: typeof liquid): ChartPoint => ({
    ...{ T, p },
    rho: rho * M,
    h: h / M,
    s: s / M,
  });
  return { liquid: point(liquid), vapour: point(vapour) };
}

/** The mixture of both phases at a vapour fraction. */
function between({ liquid, vapour }: SaturatedPair, q: number): ChartPoint {
  const mix = (ofLiquid: number, ofVapour: number) => ofLiquid + q * (ofVapour - ofLiquid);
  return {
    T: liquid.T,
    p: liquid.p,
    rho: 1 / mix(1 / liquid.rho, 1 / vapour.rho),
    h: mix(liquid.h, vapour.h),
    s: mix(liquid.s, vapour.s),
  };
}

/** From high pressure to low: liquid, boiling, vapour. */
function isotherm(material: Pure, T: number, range: ChartRange): readonly Place[] {
  const at = (p: number) => placeOf(bulkAtTP(material, T, p), "p", p);
  const pair = saturatedPair(material, T);
  const { from: low, to: high } = range.p;
  if ("because" in pair) return pressuresDown(high, low, ISOTHERM_POINTS).map(at);
  const { liquid, vapour } = pair;
  const above = liquid.p < high ? pressuresDown(high, liquid.p, LIQUID_POINTS).slice(0, -1) : [];
  const below = liquid.p > low ? pressuresDown(liquid.p, low, VAPOUR_POINTS).slice(1) : [];
  return [...above.map(at), liquid, vapour, ...below.map(at)];
}

function criticalPoint({ fluid, M }: Pure): ChartPoint | undefined {
  const { T, p, rho } = fluid.critical;
  const state = stateTRho(fluid, T, rho);
  if (state.kind === "failed") return undefined;
  return { T, p, rho: rho * M, h: state.h / M, s: state.s / M };
}
