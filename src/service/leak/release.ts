/** A stretch of a release whose rate falls as rate·e^(−decay·(t − from)). s, kg/s, 1/s. */
export interface ReleasePart {
  readonly from: number;
  readonly to: number;
  readonly rate: number;
  readonly decay: number;
}

/** What leaks out, over time from 0. */
export interface Release {
  /** kg, all in one moment. */
  readonly atOnce: number;
  /** One after the other. */
  readonly parts: readonly ReleasePart[];
}

/** A hole as seen by what leaves through it. kg/s, kg. */
export interface HoleFlow {
  /** While there is liquid in the vessel. */
  readonly rate: number;
  /** Of vapour at the vessel's full pressure. */
  readonly vapourRate: number;
  /** Vapour that fills the vessel when the last liquid is gone; 0 where its volume is not known. */
  readonly vapourFull: number;
  /** What stays in the vessel at the pressure of the air. */
  readonly stays: number;
}

export const releaseAtOnce = (mass: number): Release => ({ atOnce: mass, parts: [] });

/** kg at a constant rate, kg/s, until nothing is left. */
export const steadyRelease = (mass: number, rate: number): Release => ({
  atOnce: 0,
  parts: [{ from: 0, to: mass / rate, rate, decay: 0 }],
});

/**
 * What a hole lets out: at full rate while there is liquid, then less and less as the vapour's pressure falls, down
 * to the pressure of the air.
 *
 * Pressure is taken as proportional to the vapour's mass and the flow as choked to the end: quicker than in truth.
 */
export function releaseThroughHole(mass: number, flow: HoleFlow): Release {
  const { rate, vapourRate, vapourFull, stays } = flow;
  if (vapourFull === 0) return steadyRelease(mass, rate);
  const liquid = Math.max(0, mass - vapourFull);
  const until = liquid / rate;
  const vapour = mass - liquid;
  const decay = vapourRate / vapourFull;
  const first = liquid > 0 ? [{ from: 0, to: until, rate, decay: 0 }] : [];
  if (vapour <= stays) return { atOnce: 0, parts: first };
  const tail = {
    from: until,
    to: until + Math.log(vapour / stays) / decay,
    rate: decay * vapour,
    decay,
  };
  return { atOnce: 0, parts: [...first, tail] };
}

/** (1 − e^(−x))/x, and 1 at 0. */
export const meanDecay = (x: number): number => (x === 0 ? 1 : -Math.expm1(-x) / x);

/** kg that have come out until t, s. */
export const releasedUntil = ({ atOnce, parts }: Release, t: number): number =>
  parts.reduce((sum, { from, to, rate, decay }) => {
    const span = Math.max(0, Math.min(t, to) - from);
    return sum + rate * span * meanDecay(decay * span);
  }, atOnce);

/** When the last of it is out, s. */
export const releaseEnd = ({ parts }: Release): number => parts.at(-1)?.to ?? 0;
