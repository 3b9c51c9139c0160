import { fluid as fluidOf, mixStateTQ } from "../../fluids/index.ts";
import { blendBubble, blendDew, type BlendMaterial } from "../bulk/blend-states.ts";
import { bulkAtTP, type BulkOutcome, mixtureBulk } from "../bulk/bulk.ts";
import {
  type ChartRange,
  COLDEST,
  HIGHEST,
  HOTTEST,
  isothermsWithin,
  pressuresDown,
} from "./chart-range.ts";
import type { DiagramKind, PhaseDiagram } from "./diagram-shape.ts";
import {
  type ChartLine,
  type ChartPoint,
  lineOf,
  phasePoint,
  type Place,
  placeOf,
} from "./line.ts";

/** Steps along a saturation line. */
const LINE_STEPS = 30;
/** How far from the end of a line, K, its last point is taken: at the very end there is none to converge to. */
const SHORT_OF_END = 0.01;
const [LIQUID_POINTS, MIXED_FRACTIONS, VAPOUR_POINTS] = [4, [0.2, 0.4, 0.6, 0.8], 8];
const ISOTHERM_POINTS = 16;
const FRACTIONS = [0.2, 0.4, 0.6, 0.8];

/** The lines of a blend's diagram; see `phaseDiagram`. */
export function blendDiagram(blend: BlendMaterial, kind: DiagramKind): PhaseDiagram {
  const { T: Tc, p: pc } = pseudoCritical(blend);
  const { limits } = blend.mix;
  const from = Math.min(Math.max(limits.Tmin, COLDEST * Tc), limits.Tmax);
  const until = Math.min(limits.Tmax, HOTTEST * Tc);
  const side = (solve: typeof blendBubble, phase: "liquid" | "vapour"): ChartLine =>
    lineOf(
      follow(
        (T) => solve(blend, "T", T),
        { from, until },
        (T, found) => saturatedPlace(found, T, phase),
      ),
    );
  const [bubble, dew] = [side(blendBubble, "liquid"), side(blendDew, "vapour")];
  const range: ChartRange = {
    T: { from, to: until },
    p: pressureRange([bubble, dew], { pc, pmax: limits.pmax }),
  };
  const lines = { range, critical: undefined, bubble, dew };
  if (kind === "pressure-temperature") return { ...lines, isotherms: [], fractions: [] };
  const end = Math.min(endOf(bubble), endOf(dew));
  return {
    ...lines,
    isotherms: isothermsWithin(range.T).map((T) => ({
      T,
      line: lineOf(T < end ? boiling(blend, T, range) : flashes(blend, T, range)),
    })),
    fractions: FRACTIONS.map((fraction) => ({
      fraction,
      line: fractionLine(blend, fraction, { from, until: end }),
    })),
  };
}

/** Line of one vapour fraction, as far as both saturation lines go. */
const fractionLine = (
  blend: BlendMaterial,
  fraction: number,
  span: { readonly from: number; readonly until: number },
): ChartLine =>
  lineOf(
    follow(
      (T) => atFraction(blend, T, fraction),
      span,
      (T, found) => placeOf(found, "T", T),
    ),
  );

/** Means over mole fractions: where to look, not a result. */
function pseudoCritical({ moles }: BlendMaterial): { readonly T: number; readonly p: number } {
  let [T, p] = [0, 0];
  for (const { fluid, fraction } of moles) {
    const { critical } = fluidOf(fluid);
    T += fraction * critical.T;
    p += fraction * critical.p;
  }
  return { T, p };
}

/** Around the saturation lines, at least a decade. */
function pressureRange(
  lines: readonly ChartLine[],
  { pc, pmax }: { readonly pc: number; readonly pmax: number },
): ChartRange["p"] {
  const pressures = lines.flatMap(({ pieces }) => pieces.flat().map(({ p }) => p));
  const to = Math.min(pmax, HIGHEST * Math.max(pc, ...pressures.filter((p) => p < 2 * pc)));
  return { from: Math.min(to / 10, ...pressures), to };
}

/** Hottest point of a line, K. */
const endOf = ({ pieces }: ChartLine): number => Math.max(0, ...pieces.flat().map(({ T }) => T));

/** Places from cold to hot, as far as the line goes: a failure says where that is. */
function follow(
  solve: (T: number) => BulkOutcome,
  { from, until }: { readonly from: number; readonly until: number },
  view: (T: number, found: BulkOutcome) => Place,
): readonly Place[] {
  const places: Place[] = [];
  for (let i = 0; i <= LINE_STEPS; i++) {
    const T = from + ((until - from) * i) / LINE_STEPS;
    const found = solve(T);
    if (found.kind === "bulk" || found.reason !== "no-solution") {
      places.push(view(T, found));
      continue;
    }
    const last = (found.numbers["to"] ?? 0) - SHORT_OF_END;
    const before = from + ((until - from) * (i - 1)) / LINE_STEPS;
    if (last > before && last < T) {
      const close = solve(last);
      if (close.kind === "bulk") places.push(view(last, close));
    }
    return [...places, view(T, found)];
  }
  return places;
}

/** The phase that has the blend's composition. */
function saturatedPlace(outcome: BulkOutcome, T: number, kind: "liquid" | "vapour"): Place {
  if (outcome.kind === "failed") return { quantity: "T", value: T, because: outcome.reason };
  const phase = outcome.phases.find((each) => each.kind === kind);
  if (!phase) throw new RangeError("a saturation point has two phases");
  return phasePoint(outcome, phase);
}

const atFraction = (blend: BlendMaterial, T: number, beta: number): BulkOutcome =>
  mixtureBulk(blend, mixStateTQ(blend.mix, blend.z, T, beta));

const isPoint = (place: Place): place is ChartPoint => !("because" in place);

/** From high pressure to low, whatever is there. */
function flashes(blend: BlendMaterial, T: number, { p }: ChartRange): readonly Place[] {
  return pressuresDown(p.to, p.from, ISOTHERM_POINTS).map((each) =>
    placeOf(bulkAtTP(blend, T, each), "p", each),
  );
}

/** From high pressure to low: liquid, boiling, vapour. */
function boiling(blend: BlendMaterial, T: number, range: ChartRange): readonly Place[] {
  const { from, to } = range.p;
  const bubble = saturatedPlace(blendBubble(blend, "T", T), T, "liquid");
  const dew = saturatedPlace(blendDew(blend, "T", T), T, "vapour");
  if (!isPoint(bubble) || !isPoint(dew) || bubble.p > to || dew.p < from) {
    return flashes(blend, T, range);
  }
  const at = (p: number): Place => placeOf(bulkAtTP(blend, T, p), "p", p);
  const mixed = MIXED_FRACTIONS.map((beta) => placeOf(atFraction(blend, T, beta), "T", T));
  return [
    ...pressuresDown(to, bubble.p, LIQUID_POINTS).slice(0, -1).map(at),
    bubble,
    ...mixed,
    dew,
    ...pressuresDown(dew.p, from, VAPOUR_POINTS).slice(1).map(at),
  ];
}
