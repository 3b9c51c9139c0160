import { findRoot } from "../../numerics/index.ts";
import { type AirZones, layeredAir, stirredAir } from "./air-zones.ts";
import { concentrationAt } from "./concentration.ts";
import { type Exposure, exposureOf } from "./exposure.ts";
import type { Release } from "./release.ts";

/** Fraction of the lower flammability limit that occupied rooms must not pass: ASHRAE 34 clause 7. */
export const QUARTER = 0.25;

/** A closed space with what moves its air. */
export interface LeakSpace {
  /** Free air, m3. */
  readonly volume: number;
  /** Fresh air, changes of the whole volume, 1/s. */
  readonly airChanges: number;
  /** Where the air is not stirred: the layer at the floor. */
  readonly layer?: {
    /** m2, m */
    readonly floorArea: number;
    readonly height: number;
    /** Changes of the layer's air with that above it, 1/s. */
    readonly exchange: number;
  };
}

/** A layer may fill the space to this part; beyond it there is no air above to tell it from. */
const FULLEST_LAYER = 0.95;

/** The zones of a space: stirred where it has no layer. */
export function zonesOf({ volume, airChanges, layer }: LeakSpace): AirZones {
  if (!layer) return stirredAir(volume, airChanges);
  const layerVolume = Math.min(layer.floorArea * layer.height, FULLEST_LAYER * volume);
  return layeredAir({
    volume,
    layerVolume,
    exchange: layer.exchange * layerVolume,
    freshAir: airChanges * volume,
  });
}

/** What a leak does to the air where it leaks in. */
export interface LeakResult extends Exposure {
  /** kg/m3 against time, s; also above a layer where there is one. */
  readonly series: readonly {
    readonly t: number;
    readonly concentration: number;
    readonly rest: number;
  }[];
}

const POINTS = 61;
/** A picture ends where nothing more happens, but shows at least, and at most, so much: s. */
const SHORTEST = 600;
const LONGEST = 4 * 3600;
/** Where nothing ever falls. */
const ENDLESS = 3600;

/** When a picture of it should end: a little after the last level is left. */
function horizon({ until }: Exposure, end: number): number {
  if (until.some((time) => time === null)) return Math.max(ENDLESS, 1.5 * end);
  // Of what has no level to fall below, an hour tells enough.
  if (until.length === 0) return Math.max(ENDLESS, 1.5 * end);
  const last = Math.max(...until.map((time) => time ?? 0));
  return Math.min(Math.max(1.15 * last, 1.2 * Math.min(end, LONGEST / 1.2), SHORTEST), LONGEST);
}

/** Times of the series: evenly, and the ends of the release's parts. */
function timesOf({ parts }: Release, end: number): number[] {
  const even = Array.from({ length: POINTS }, (_, i) => (end * i) / (POINTS - 1));
  const corners = parts.map(({ to }) => to).filter((t) => t < end);
  return [...new Set([...even, ...corners])].sort((a, b) => a - b);
}

/**
 * A leak into a space.
 *
 * @param levels kg/m3 to tell the time above.
 * @param until  Length of the series, s; as long as something happens if left out.
 */
export function leakInto(
  space: LeakSpace,
  release: Release,
  levels: readonly number[],
  until?: number,
): LeakResult {
  const zones = zonesOf(space);
  const exposure = exposureOf(zones.source, release, levels);
  const end = until ?? horizon(exposure, release.parts.at(-1)?.to ?? 0);
  const series = timesOf(release, end).map((t) => ({
    t,
    concentration: concentrationAt(zones.source, release, t),
    rest: concentrationAt(zones.rest, release, t),
  }));
  return { ...exposure, series };
}

/** kg; no charge of a vehicle is larger by far. */
const LARGEST = 50;

/**
 * The mass whose leak just stays at a concentration, kg; `undefined` if even a very large one stays below.
 *
 * The peak grows with the mass, so one root is enough.
 *
 * @param releaseOf How a mass leaves.
 * @param limit     kg/m3.
 */
export function safeMass(
  space: LeakSpace,
  releaseOf: (mass: number) => Release,
  limit: number,
): number | undefined {
  const { source } = zonesOf(space);
  const excess = (mass: number): number =>
    Math.log(exposureOf(source, releaseOf(mass), [limit]).peak / limit);
  // All at once into the source zone: nothing can be worse, so this mass is surely safe.
  const least = limit / source.reduce((sum, { c }) => sum + c, 0);
  if (excess(least) >= 0) return least;
  if (least >= LARGEST || excess(LARGEST) < 0) return undefined;
  const root = findRoot(excess, least, LARGEST, { relativeWidth: 1e-9 });
  return root.kind === "root" ? root.x : least;
}
