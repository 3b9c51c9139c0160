/** Part of a zone's answer to a release: c·z with dz/dt = ṁ − λz. c in 1/m3, λ in 1/s. */
export interface Mode {
  readonly lambda: number;
  readonly c: number;
}

/** How the air of a closed space takes up what leaks: kg/m3 in a zone for kg released, as decaying parts. */
export interface AirZones {
  /** Where it leaks in. */
  readonly source: readonly Mode[];
  /** The air above a layer; the same as `source` where the air is stirred. */
  readonly rest: readonly Mode[];
  /** m3 */
  readonly sourceVolume: number;
  readonly restVolume: number;
}

/**
 * Air that is stirred: one concentration everywhere, thinned by fresh air.
 *
 * V dC/dt = ṁ − a V C
 *
 * @param volume     Free air, m3, > 0.
 * @param airChanges a, 1/s, ≥ 0; 0 is a sealed space.
 */
export function stirredAir(volume: number, airChanges: number): AirZones {
  const modes = [{ lambda: airChanges, c: 1 / volume }];
  return { source: modes, rest: modes, sourceVolume: volume, restVolume: 0 };
}

/** A heavy layer at the floor and the air above it. */
export interface Layered {
  /** All free air, m3. */
  readonly volume: number;
  /** Of the layer, m3, above 0 and below `volume`. */
  readonly layerVolume: number;
  /** Between the two, m3/s, ≥ 0; 0 keeps all of the leak in the layer. */
  readonly exchange: number;
  /** Fresh air into the upper zone, m3/s, ≥ 0: it does not reach the layer but through the exchange. */
  readonly freshAir: number;
}

/**
 * Two zones with an exchange between them.
 *
 *     V1 dC1/dt = ṁ + Q (C2 − C1)
 *     V2 dC2/dt = Q (C1 − C2) − F C2
 *
 * Two real modes, λ± = (p + s ± √((p − s)² + 4qr))/2 with p = q = Q/V1, r = Q/V2, s = (Q + F)/V2. The smaller one is
 * taken from the product λ+·λ− = QF/(V1·V2), so that a slow exchange loses no digits.
 *
 * @throws RangeError for a layer that is not part of the space: the caller's bug.
 *
 * Source: linear two-zone mass balance, its closed form by partial fractions
 * Checked: leak.property.test.ts
 */
export function layeredAir({ volume, layerVolume, exchange, freshAir }: Layered): AirZones {
  const above = volume - layerVolume;
  if (!(layerVolume > 0 && above > 0)) throw new RangeError(`layer ${layerVolume} of ${volume} m3`);
  const zones = { sourceVolume: layerVolume, restVolume: above };
  if (exchange === 0) return { source: [{ lambda: 0, c: 1 / layerVolume }], rest: [], ...zones };
  const p = exchange / layerVolume;
  const r = exchange / above;
  const s = (exchange + freshAir) / above;
  const root = Math.hypot(p - s, 2 * Math.sqrt(p * r));
  const fast = (p + s + root) / 2;
  const slow = (exchange * freshAir) / (layerVolume * above) / fast;
  const across = r / (layerVolume * root);
  return {
    source: [
      { lambda: fast, c: (fast - s) / (layerVolume * root) },
      { lambda: slow, c: (s - slow) / (layerVolume * root) },
    ],
    rest: [
      { lambda: fast, c: -across },
      { lambda: slow, c: across },
    ],
    ...zones,
  };
}
