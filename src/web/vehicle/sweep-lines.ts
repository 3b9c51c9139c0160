import type { SweepGap, SweepLine } from "../../report/index.ts";
import type { SweepAxis } from "./sweep-axes.ts";
import { bandAt, type BandPlace } from "./sweep-bands.ts";
import type { Readings, SweepPlace } from "./vehicle-results.ts";
import type { VehicleUnits } from "./vehicle-units.ts";
import { quantityNames, shownOf } from "./vehicle-words.ts";

export type Known = Readings & { readonly at: number; readonly state: "running" };

const isKnown = (place: SweepPlace): place is Known => place.state === "running";
export const knownOf = (places: readonly SweepPlace[]): readonly Known[] => places.filter(isKnown);

const shownNames = ["low", "high", "vent", "capacity"] as const;

/** The four quantities of the chart. */
export const linesOf = (
  places: readonly SweepPlace[],
  bands: readonly BandPlace[],
  units: VehicleUnits,
): SweepLine[] => {
  const swings = knownOf(places).some(({ lowRange }) => lowRange !== undefined);
  return shownNames.map((name) => ({
    name: quantityNames[name],
    shown: shownOf(name, units).of,
    areaName: name === "low" && swings ? "swing while cycling" : "95 % band",
    points: places.map((place) => {
      if (!isKnown(place)) return { x: place.at };
      const y = name === "high" ? (place.highOn ?? place.high) : place[name];
      if (name === "low" && swings) {
        return { x: place.at, y, ...(place.lowRange && { area: place.lowRange, swings: true }) };
      }
      const area = bandAt(bands, name, place.at, y);
      return { x: place.at, y, ...(area && { area }) };
    }),
  }));
};

/** Neighbouring places without an answer for the same reason, as one stretch. */
export function gapsOf(places: readonly SweepPlace[]): SweepGap[] {
  const gaps: SweepGap[] = [];
  let open = false;
  for (const place of places) {
    if (isKnown(place)) {
      open = false;
      continue;
    }
    const last = gaps.at(-1);
    if (open && last?.why === place.message) gaps[gaps.length - 1] = { ...last, to: place.at };
    else gaps.push({ from: place.at, to: place.at, why: place.message });
    open = true;
  }
  return gaps;
}

/** A vent within this of the coldest is as good, K. */
const AS_GOOD = 1;

/** So finely a pressure is told, as a part of it. */
const PART = 0.03;

/** What the sweep shows, in a sentence. */
export function findingOf(
  places: readonly SweepPlace[],
  axis: SweepAxis,
  units: VehicleUnits,
): string {
  const known = knownOf(places);
  const [first, last] = [known[0], known.at(-1)];
  if (!first || !last) throw new RangeError("a sweep without any answer has no finding");
  const at = (value: number): string => axis.shown.nominal(value);
  if (axis.name === "charge") {
    const best = Math.min(...known.map(({ vent }) => vent));
    const good = known.filter(({ vent }) => vent <= best + AS_GOOD);
    const [from, to] = [good[0], good.at(-1)];
    if (from && from === to) {
      return `The vent is coldest with ${at(from.at)}: ${units.T.text(best)}`;
    }
    if (from && to) {
      return `From ${at(from.at)} to ${at(to.at)} the vent stays within ${units.dT.text(AS_GOOD).replace("+", "")} of its coldest, ${units.T.text(best)}`;
    }
  }
  const go = (name: "vent" | "high", shown: VehicleUnits["T"]): string => {
    const value = (place: Known) => (name === "high" ? (place.highOn ?? place.high) : place[name]);
    const u = PART * value(last);
    return name === "high"
      ? `from ${shown.text(value(first), u)} to ${shown.text(value(last), u)}`
      : `from ${shown.text(value(first))} to ${shown.text(value(last))}`;
  };
  return `From ${at(first.at)} to ${at(last.at)} the vent goes ${go("vent", units.T)}, the high side ${go("high", units.gauge)}`;
}
