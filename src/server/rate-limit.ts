/** So many at once, and so many a second in the long run. */
export interface Rate {
  readonly burst: number;
  readonly perSecond: number;
}

/** Names that are remembered; the ones not seen for longest are forgotten first. */
const mostNames = 10_000;

/**
 * A token bucket for each name. Memory is bounded: with more names than it remembers, the longest unseen
 * one starts anew.
 *
 * @param now ms.
 * @returns takes one token; false when there is none: refuse.
 */
export function rateLimit({ burst, perSecond }: Rate, now: () => number) {
  const buckets = new Map<string, { tokens: number; at: number }>();
  return (name: string): boolean => {
    const at = now();
    const bucket = buckets.get(name) ?? { tokens: burst, at };
    const tokens = Math.min(burst, bucket.tokens + ((at - bucket.at) / 1000) * perSecond);
    const allowed = tokens >= 1;
    buckets.delete(name);
    buckets.set(name, { tokens: allowed ? tokens - 1 : tokens, at });
    if (buckets.size > mostNames) {
      const [oldest] = buckets.keys();
      if (oldest !== undefined) buckets.delete(oldest);
    }
    return allowed;
  };
}
