import type { BulkFailure } from "../bulk/bulk-failure.ts";
import { materialOf } from "../bulk/material.ts";
import { molarMass, type Part } from "../substances/composition.ts";
import { type Flammability, flammabilityOf } from "../substances/flammability.ts";
import type { NamedBlend } from "../substances/named-blends.ts";
import {
  type AirState,
  type BreathingLimits,
  breathingLimits,
  fractionOf,
  limitInAir,
  oxygenLeft,
  pureVapour,
  warningLimit,
} from "./air-limits.ts";
import { type Hole, holeFlow } from "./hole-flow.ts";
import { leakInto, type LeakSpace, QUARTER, safeMass } from "./leak.ts";
import {
  type HoleFlow,
  type Release,
  releaseAtOnce,
  releaseEnd,
  releaseThroughHole,
  steadyRelease,
} from "./release.ts";

/** How the charge escapes. */
export type Escape =
  | { readonly kind: "at-once" }
  /** kg/s */
  | { readonly kind: "steady"; readonly rate: number }
  | { readonly kind: "hole"; readonly hole: Hole };

/** A charge that escapes into a closed space. */
export interface LeakCase {
  /** Mole fractions. */
  readonly moles: readonly Part[];
  readonly named?: NamedBlend | undefined;
  /** kg */
  readonly mass: number;
  readonly space: LeakSpace;
  readonly air: AirState;
  readonly escape: Escape;
  /** A lower flammability limit that is known better, kg/m3 at 25 °C and 101.325 kPa. */
  readonly lfl?: number | undefined;
  /** Length of the series, s. */
  readonly until?: number | undefined;
}

/** What the air of one zone goes through. kg/m3, s. */
export interface ZoneHazard {
  readonly peak: number;
  readonly peakAt: number;
  /** Of the air, by volume, at the peak. */
  readonly fraction: number;
  readonly oxygen: number;
  /** The zone is full of the vapour: no air can hold more. */
  readonly full: boolean;
  /** Peak over the lower flammability limit; `undefined` where there is none. */
  readonly overLfl: number | undefined;
  /** s; `null` where it never falls below, `undefined` where there is no limit. */
  readonly aboveLfl: number | null | undefined;
  readonly aboveQuarter: number | null | undefined;
  /** kg that would stay below a quarter of the limit; `undefined` if any mass would, or there is no limit. */
  readonly safeMass: number | undefined;
  /** kg that would stay below the limit for people's lungs. */
  readonly safeToBreathe: number | undefined;
  readonly series: readonly {
    readonly t: number;
    readonly concentration: number;
    readonly rest: number;
  }[];
}

/** What a leak would do. */
export interface LeakHazard {
  readonly kind: "leak";
  readonly rated: Flammability;
  /** kg/m3 in this air; `undefined` where none is known. */
  readonly lfl: number | undefined;
  readonly breathing: BreathingLimits;
  /** Pa behind a hole, and the flow through it. */
  readonly behind?: { readonly p: number; readonly flow: HoleFlow };
  /** Until the last of it is out, s. */
  readonly lasts: number;
  /** Air as the case has it: layered where it has a layer. */
  readonly worst: ZoneHazard;
  /** The same with the air stirred. */
  readonly stirred: ZoneHazard;
}

interface Escaping {
  readonly releaseOf: (mass: number) => Release;
  readonly behind?: NonNullable<LeakHazard["behind"]>;
}

function escaping({ moles, escape }: LeakCase): Escaping | BulkFailure {
  switch (escape.kind) {
    case "at-once":
      return { releaseOf: releaseAtOnce };
    case "steady":
      return { releaseOf: (mass) => steadyRelease(mass, escape.rate) };
    case "hole": {
      const found = holeFlow(materialOf(moles), escape.hole);
      if (found.kind === "failed") return found;
      const { p, flow } = found;
      return { releaseOf: (mass) => releaseThroughHole(mass, flow), behind: { p, flow } };
    }
  }
}

/**
 * What a charge that escapes would do to the air of a space.
 *
 * @returns the hazard, or why there is no flow through the hole.
 *
 * Limits: the air in a zone is even; near the leak it is richer, so a flame is possible there whatever the figures.
 * Checked: leak.test.ts, leak.property.test.ts, hole-flow.test.ts
 */
export function leakHazard(leak: LeakCase): LeakHazard | BulkFailure {
  const { moles, named, mass, space, air, escape } = leak;
  const found = escaping(leak);
  if ("reason" in found) return found;
  const rated = flammabilityOf(moles, named);
  const vapourFirst = escape.kind === "hole" && escape.hole.phase === "vapour";
  const listed = leak.lfl ?? warningLimit(rated, moles, vapourFirst ? "vapour" : "as-charged");
  const lfl = listed === undefined ? undefined : limitInAir(listed, air);
  const M = molarMass(moles);
  const limits = {
    M,
    lfl,
    breathing: breathingLimits(moles, lfl === undefined ? undefined : fractionOf(lfl, M, air)),
  };
  const { volume, airChanges } = space;
  const spaces = [space, { volume, airChanges }];
  // Both are told over the same time, so that they can stand in one picture.
  const until =
    leak.until ?? Math.max(...spaces.map((of) => horizonOf(of, found.releaseOf(mass), lfl)));
  const zone = (of: LeakSpace): ZoneHazard =>
    zoneHazard({ ...leak, until }, of, found.releaseOf, limits);
  const stirred = zone({ volume, airChanges });
  return {
    kind: "leak",
    rated,
    lfl,
    breathing: limits.breathing,
    ...(found.behind && { behind: found.behind }),
    lasts: releaseEnd(found.releaseOf(mass)),
    worst: space.layer ? zone(space) : stirred,
    stirred,
  };
}

/** How long something happens, s. */
const horizonOf = (space: LeakSpace, release: Release, lfl: number | undefined): number =>
  leakInto(space, release, lfl === undefined ? [] : [QUARTER * lfl]).series.at(-1)?.t ?? 0;

interface Limits {
  readonly M: number;
  readonly lfl: number | undefined;
  readonly breathing: BreathingLimits;
}

function zoneHazard(
  { mass, air, until }: LeakCase,
  space: LeakSpace,
  releaseOf: Escaping["releaseOf"],
  { M, lfl, breathing }: Limits,
): ZoneHazard {
  const full = pureVapour(M, air);
  const levels = lfl === undefined ? [] : [lfl, QUARTER * lfl];
  const found = leakInto(space, releaseOf(mass), levels, until);
  const peak = Math.min(found.peak, full);
  const fraction = fractionOf(peak, M, air);
  const rcl = breathing.rcl;
  return {
    peak,
    peakAt: found.peakAt,
    fraction,
    oxygen: oxygenLeft(fraction),
    full: found.peak > full,
    overLfl: lfl === undefined ? undefined : peak / lfl,
    aboveLfl: lfl === undefined ? undefined : found.above[0],
    aboveQuarter: lfl === undefined ? undefined : found.above[1],
    safeMass: lfl === undefined ? undefined : safeMass(space, releaseOf, QUARTER * lfl),
    safeToBreathe: rcl === undefined ? undefined : safeMass(space, releaseOf, rcl * full),
    series: found.series.map(({ t, concentration, rest }) => ({
      t,
      concentration: Math.min(concentration, full),
      rest: Math.min(Math.max(0, rest), full),
    })),
  };
}
