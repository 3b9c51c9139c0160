/**
 * Vapour fraction at which phase compositions x = z/(1 − β + βK), y = Kx each sum to the same.
 *
 * @returns  β between the poles, where it may lie outside [0, 1]; NaN-free: 0.5 if all K are 1.
 *
 * Source: Rachford and Rice, J. Pet. Technol. 4 (1952) 19; bounds: Whitson and Michelsen,
 * Fluid Phase Equilib. 53 (1989) 51
 */
export function vapourFraction(n: number, z: ArrayLike<number>, lnK: Float64Array): number {
  let [low, high] = [-Infinity, Infinity];
  for (let i = 0; i < n; i++) {
    if (z[i] === 0) continue;
    const K = Math.exp(lnK[i]);
    if (K > 1) low = Math.max(low, 1 / (1 - K));
    if (K < 1) high = Math.min(high, 1 / (1 - K));
  }
  if (low === -Infinity) return high === Infinity ? 0.5 : -1e3;
  if (high === Infinity) return 1e3;
  let beta = 0.5;
  for (let iteration = 0; iteration < 100; iteration++) {
    let [value, slope] = [0, 0];
    for (let i = 0; i < n; i++) {
      const K = Math.exp(lnK[i]);
      const part = (K - 1) / (1 - beta + beta * K);
      value += z[i] * part;
      slope -= z[i] * part * part;
    }
    if (value > 0) low = beta;
    else high = beta;
    let next = beta - value / slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (Math.abs(next - beta) < 1e-14 * (1 + Math.abs(beta))) return next;
    beta = next;
  }
  return beta;
}
