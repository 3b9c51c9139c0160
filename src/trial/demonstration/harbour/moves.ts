import type { BodyOf } from "../../events.ts";
import { g, kg, millilitres, read } from "../hill-town-entries.ts";
import { onScale } from "./logger.ts";
import type { Story, Where } from "./outings.ts";
import { byEye } from "./logger.ts";

/** Gross masses of the cylinders as the story goes on, kg; the truth, not the scale's figure. */
export class Cylinders {
  private readonly gross = new Map<string, number>();

  start(vessel: string, gross: number): void {
    this.gross.set(vessel, gross);
  }

  /** Takes a mass in (or gives it, below zero) and tells the gross before and after. */
  move(vessel: string, mass: number): { readonly before: number; readonly after: number } {
    const before = this.gross.get(vessel);
    if (before === undefined) throw new RangeError("a cylinder has a gross mass from the start");
    this.gross.set(vessel, before + mass);
    return { before, after: before + mass };
  }
}

/** What stays behind as vapour at the end of a recovery, kg. */
export const leftBehind = 0.004;

/** The vehicle's contents go into a cylinder; the end pressure and the oil are read. */
export function recovered(
  { log, things, random }: Story,
  where: Where,
  at: string,
  { cylinders, cylinder, inside }: { cylinders: Cylinders; cylinder: string; inside: number },
): void {
  const { before, after } = cylinders.move(cylinder, inside - leftBehind);
  log.add(at, "transfer-posted", {
    ...where,
    from: "vehicle",
    to: cylinder,
    destinationWeighing: {
      before: kg(onScale(before, random) / 1000),
      after: kg(onScale(after, random) / 1000),
      instrument: things.scale,
    },
  });
  const end = { value: byEye(101_100 - 36_000, "bar(g)", 0.01), unit: "bar(g)" };
  read(log, at, where, "low-side", end, things.lowGauge);
  read(log, at, where, "oil-drained", millilitres(9));
}

export interface Pour {
  readonly can: string;
  /** Truth, kg. */
  readonly full: number;
  readonly empty: number;
  /** Typed instead of the emptied can's mass at first, g. */
  readonly mistyped?: number;
}

/** A can goes into the vehicle over the scale; gives what really went in, kg. */
export function poured(story: Story, where: Where, at: string, pour: Pour): number {
  const { log, things, random } = story;
  const before = onScale(pour.full, random);
  const after = onScale(pour.empty, random);
  read(log, at, { ...where, vessel: pour.can }, "gross-mass", g(before), things.scale);
  const transfer = (shown: number): BodyOf<"transfer-posted"> => ({
    ...where,
    from: pour.can,
    to: "vehicle",
    sourceWeighing: { before: g(before), after: g(shown), instrument: things.scale },
    purged: { mass: g(2), limit: g(1) },
    phase: "liquid",
    note: "Can upside down, low side throttled, compressor running.",
    when: at,
  });
  const entry = log.add(at, "transfer-posted", transfer(pour.mistyped ?? after));
  if (pour.mistyped !== undefined) {
    log.add(
      new Date(Date.parse(at) + 12 * 60_000).toISOString().replace(".000Z", "Z"),
      "entry-corrected",
      {
        target: entry,
        body: { ...transfer(after) },
        reason: `Mistyped: the emptied can weighs ${after} g, not ${pour.mistyped} g.`,
      },
    );
  }
  return pour.full - pour.empty - 0.002;
}
