import { across, along, createWeights, place, type Weights } from "./interpolate.ts";
import { type Pack, SUPERHEAT, TWO_PHASE } from "./pack.ts";

/** A pressure in a pack, with the ends of boiling there. Owned by the caller and set again and again. */
export interface Isobar {
  readonly pack: Pack;
  p: number;
  Tb: number;
  Td: number;
  hb: number;
  hd: number;
  sb: number;
  sd: number;
  rhoB: number;
  rhoD: number;
  readonly row: Weights;
  readonly column: Weights;
}

export function createIsobar(pack: Pack): Isobar {
  const [row, column] = [createWeights(), createWeights()];
  const ends = { Tb: 0, Td: 0, hb: 0, hd: 0, sb: 0, sd: 0, rhoB: 0, rhoD: 0 };
  return { pack, p: 0, ...ends, row, column };
}

/** Columns of `Pack.ends`. */
export const ENDS = 8;

/** Moves an isobar to a pressure, Pa. Cost: a logarithm, an exponential, 32 products. */
export function setPressure(isobar: Isobar, p: number): void {
  const { pack, row } = isobar;
  const { ends } = pack;
  place(pack.lnP, Math.log(p), row);
  isobar.p = p;
  const a = row.i * ENDS;
  const b = a + ENDS;
  const c = b + ENDS;
  const d = c + ENDS;
  const { w0, w1, w2, w3 } = row;
  isobar.Tb = w0 * ends[a] + w1 * ends[b] + w2 * ends[c] + w3 * ends[d];
  isobar.Td = w0 * ends[a + 1] + w1 * ends[b + 1] + w2 * ends[c + 1] + w3 * ends[d + 1];
  isobar.hb = w0 * ends[a + 2] + w1 * ends[b + 2] + w2 * ends[c + 2] + w3 * ends[d + 2];
  isobar.hd = w0 * ends[a + 3] + w1 * ends[b + 3] + w2 * ends[c + 3] + w3 * ends[d + 3];
  isobar.sb = w0 * ends[a + 4] + w1 * ends[b + 4] + w2 * ends[c + 4] + w3 * ends[d + 4];
  isobar.sd = w0 * ends[a + 5] + w1 * ends[b + 5] + w2 * ends[c + 5] + w3 * ends[d + 5];
  isobar.rhoB = w0 * ends[a + 6] + w1 * ends[b + 6] + w2 * ends[c + 6] + w3 * ends[d + 6];
  isobar.rhoD = Math.exp(w0 * ends[a + 7] + w1 * ends[b + 7] + w2 * ends[c + 7] + w3 * ends[d + 7]);
}

/** Steps beyond the last superheat node to which the outer cubic is continued. */
const beyond = 1.1;

function placeSuperheat({ pack, column }: Isobar, dh: number): void {
  const xi = Math.sqrt(Math.max(0, dh) / pack.dhMax);
  placeEven(SUPERHEAT, Math.min(beyond, xi), column);
}

function placeEven(count: number, share: number, weights: Weights): void {
  const t = share * (count - 1);
  let i = Math.floor(t) - 1;
  if (i < 0) i = 0;
  if (i > count - 4) i = count - 4;
  const u = t - i;
  const a = u - 1;
  const b = u - 2;
  const c = u - 3;
  weights.i = i;
  weights.w0 = (-a * b * c) / 6;
  weights.w1 = (u * b * c) / 2;
  weights.w2 = (-u * a * c) / 2;
  weights.w3 = (u * a * b) / 6;
}

/** A quantity of the two-phase table at chi. */
function wet(isobar: Isobar, table: Float64Array, chi: number): number {
  placeEven(TWO_PHASE, chi, isobar.column);
  return across(table, TWO_PHASE, isobar.row, isobar.column);
}

/** Enthalpy fraction of boiling; below 0 liquid, above 1 superheated. */
export const chiAt = ({ hb, hd }: Isobar, h: number): number => (h - hb) / (hd - hb);

/** Temperature in two phases at chi from 0 to 1, K. */
export const wetTemperature = (isobar: Isobar, chi: number): number =>
  isobar.pack.glide ? wet(isobar, isobar.pack.T, chi) : isobar.Td;

/** Mass quality at chi from 0 to 1. */
export const wetQuality = (isobar: Isobar, chi: number): number =>
  isobar.pack.glide ? wet(isobar, isobar.pack.quality, chi) : chi;

/** Densities of the phases at chi from 0 to 1, kg/m³. */
export const wetLiquidDensity = (isobar: Isobar, chi: number): number =>
  isobar.pack.glide ? Math.exp(wet(isobar, isobar.pack.lnRhoL, chi)) : isobar.rhoB;

export const wetVapourDensity = (isobar: Isobar, chi: number): number =>
  isobar.pack.glide ? Math.exp(wet(isobar, isobar.pack.lnRhoV, chi)) : isobar.rhoD;

/** Temperature, K, at an enthalpy, J/kg. */
export function temperatureAt(isobar: Isobar, h: number): number {
  const { pack, hb, hd, column } = isobar;
  if (h <= hb) {
    place(pack.liquidH, h, column);
    return along(pack.lT, column);
  }
  if (h < hd) return wetTemperature(isobar, chiAt(isobar, h));
  placeSuperheat(isobar, h - hd);
  return across(pack.vT, SUPERHEAT, isobar.row, column);
}

/** Specific volume, m³/kg, at an enthalpy; in two phases of the mixture without slip. */
export function volumeAt(isobar: Isobar, h: number): number {
  const { pack, hb, hd, column } = isobar;
  if (h <= hb) {
    place(pack.liquidH, h, column);
    return 1 / along(pack.lRho, column);
  }
  if (h < hd) {
    const chi = chiAt(isobar, h);
    const x = wetQuality(isobar, chi);
    return x / wetVapourDensity(isobar, chi) + (1 - x) / wetLiquidDensity(isobar, chi);
  }
  placeSuperheat(isobar, h - hd);
  return Math.exp(across(pack.vLnPv, SUPERHEAT, isobar.row, column)) / isobar.p;
}

/** Entropy, J/(kg K), at an enthalpy. A compressed liquid's is lower than on the bubble line by (p − p_b)/(ρT). */
export function entropyAt(isobar: Isobar, h: number): number {
  const { pack, hb, hd, sb, sd, column } = isobar;
  if (h <= hb) {
    place(pack.liquidH, h, column);
    const squeeze = isobar.p - Math.exp(along(pack.lLnP, column));
    return along(pack.lS, column) - squeeze / (along(pack.lRho, column) * along(pack.lT, column));
  }
  if (h < hd) {
    const chi = chiAt(isobar, h);
    return pack.glide ? wet(isobar, pack.s, chi) : sb + chi * (sd - sb);
  }
  placeSuperheat(isobar, h - hd);
  return across(pack.vS, SUPERHEAT, isobar.row, column);
}

const entropySteps = 12;

/**
 * Enthalpy, J/kg, at an entropy: Newton's method with the exact slope ∂h/∂s = T at constant p.
 *
 * @param start  Enthalpy to begin from.
 */
export function enthalpyAtEntropy(isobar: Isobar, s: number, start: number): number {
  const { hb, hd, sb, sd, pack } = isobar;
  if (!pack.glide && s >= sb && s <= sd) return hb + ((s - sb) / (sd - sb)) * (hd - hb);
  // Start on the right side of the dome's edges, where the slope changes.
  let h = start;
  if (s >= sd) h = Math.max(h, hd);
  else if (s <= sb) h = Math.min(h, hb);
  else h = hb + ((s - sb) / (sd - sb)) * (hd - hb);
  for (let k = 0; k < entropySteps; k++) {
    const step = (s - entropyAt(isobar, h)) * temperatureAt(isobar, h);
    h += step;
    if (Math.abs(step) < 1e-6) break;
  }
  return h;
}

/** Enthalpy, J/kg, of superheated vapour at a temperature, K: Newton's method on T(h). */
export function vapourEnthalpyAt(isobar: Isobar, T: number): number {
  const { pack, hd, Td } = isobar;
  if (T <= Td) return hd;
  const cp = (0.25 * pack.dhMax) / (vaporNode(isobar) - Td);
  let h = hd + cp * (T - Td);
  for (let k = 0; k < 8; k++) {
    const off = T - temperatureAt(isobar, h);
    h = Math.max(hd, h + cp * off);
    if (Math.abs(off) < 1e-9) break;
  }
  return h;
}

/** Temperature a quarter of the way up the superheat rows. */
function vaporNode(isobar: Isobar): number {
  placeEven(SUPERHEAT, 0.5, isobar.column);
  return across(isobar.pack.vT, SUPERHEAT, isobar.row, isobar.column);
}

/** Enthalpy, J/kg, of liquid at a temperature, K. */
export function liquidEnthalpyAt({ pack, column }: Isobar, T: number): number {
  place(pack.liquidT, T, column);
  return along(pack.lH, column);
}

/** Dew pressure, Pa, at a temperature, K, held inside the pack. */
export function dewPressureAt(pack: Pack, T: number, weights: Weights): number {
  const { from, step, count } = pack.dewT;
  const inside = Math.min(from + step * (count - 1), Math.max(from, T));
  place(pack.dewT, inside, weights);
  return Math.exp(along(pack.dewLnP, weights));
}

/** Bubble pressure, Pa, at a temperature, K, held inside the pack. */
export function bubblePressureAt(isobar: Isobar, T: number): number {
  const { pack, column } = isobar;
  const { from, step, count } = pack.liquidT;
  const h = liquidEnthalpyAt(isobar, Math.min(from + step * (count - 1), Math.max(from, T)));
  place(pack.liquidH, h, column);
  return Math.exp(along(pack.lLnP, column));
}
