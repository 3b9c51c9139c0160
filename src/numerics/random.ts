/** A source of uniform random numbers in [0, 1); each call advances it. */
export type Random = () => number;

/**
 * A seeded generator of uniform numbers (sfc32, 128 bits of state).
 *
 * The same seed gives the same sequence on every machine: it uses 32-bit integers only.
 *
 * @param seed  Any finite number; its integer part modulo 2³² counts.
 * @throws      RangeError if the seed is not finite.
 *
 * Source: Doty-Humphrey, PractRand, generator sfc32
 */
export function createRandom(seed: number): Random {
  if (!Number.isFinite(seed)) throw new RangeError(`a seed is a finite number, got ${seed}`);
  let a = 0;
  let b = 0;
  let c = seed | 0;
  let counter = 1;
  const next = (): number => {
    const sum = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    return (sum >>> 0) / 4294967296;
  };
  // Twelve rounds mix a small seed into the whole state.
  for (let i = 0; i < 12; i++) next();
  return next;
}
