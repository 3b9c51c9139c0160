import type { AirZones, Mode } from "./air-zones.ts";
import { meanDecay, type Release, type ReleasePart } from "./release.ts";

/**
 * ∫ rate·e^(−decay·s)·e^(−λ(t − s)) ds over a part: what of it is still in a mode at t. Symmetric in both constants, so
 * the smaller one is taken out and nothing overflows; equal ones are no special case.
 */
function remaining({ from, to, rate, decay }: ReleasePart, lambda: number, t: number): number {
  const span = Math.min(t, to) - from;
  if (!(span > 0)) return 0;
  const [small, large] = decay < lambda ? [decay, lambda] : [lambda, decay];
  const atEnd = rate * span * Math.exp(-small * span) * meanDecay((large - small) * span);
  return atEnd * Math.exp(-lambda * Math.max(0, t - to));
}

/**
 * Concentration in a zone, kg/m3, t seconds after the leak began.
 *
 * dz/dt = ṁ − λz for each mode, in closed form for releases made of exponentials.
 */
export function concentrationAt(modes: readonly Mode[], release: Release, t: number): number {
  const { atOnce, parts } = release;
  return modes.reduce((sum, { lambda, c }) => {
    const z = parts.reduce(
      (all, part) => all + remaining(part, lambda, t),
      atOnce * Math.exp(-lambda * t),
    );
    return sum + c * z;
  }, 0);
}

/** kg that are in the air of the space at t; the rest of what was released has left with the air. */
export const massInside = (zones: AirZones, release: Release, t: number): number =>
  zones.sourceVolume * concentrationAt(zones.source, release, t) +
  zones.restVolume * concentrationAt(zones.rest, release, t);
