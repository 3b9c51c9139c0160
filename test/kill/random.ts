/** Marsaglia's xorshift (2003) with 32 bits: repeatable moments for the kills, nothing statistical. */
export function xorshift(seed: number): () => number {
  let x = seed | 0 || 1;
  return () => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    return (x >>> 0) / 2 ** 32;
  };
}
