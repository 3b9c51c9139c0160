import { families, type Family, type Evidence } from "../../src/evidence/index.ts";
import { burstPressure } from "../../src/evidence/contents/families.ts";
import { fluidInfo } from "../../src/fluids/index.ts";
import { normal, type Random } from "../../src/numerics/index.ts";
import {
  bulkAtTP,
  bulkAtTRho,
  type Material,
  materialOf,
  type Part,
  toMoles,
} from "../../src/service/index.ts";

/** What somebody put into a can, and what exact physics makes of it: no table of the identification is used. */
export interface HiddenCan {
  readonly family: Family;
  readonly masses: readonly Part[];
  pressure(T: number): number;
  /** Of the liquid, kg/m³. */
  liquidDensity(T: number): number;
}

/** Standard uncertainties of the readings. */
export interface Noise {
  readonly p: number;
  readonly T: number;
  /** Relative, of the liquid's density. */
  readonly rho: number;
}

/** A digital manifold of 0.5 % of 35 bar and a thermometer good to 1 K; density of the liquid to 1.5 %. */
export const SHOP: Noise = { p: (0.005 * 35e5) / Math.sqrt(3), T: 1 / Math.sqrt(3), rho: 0.015 };
/** Part of an instrument's variance that its readings share, as the model takes it. */
const SHARED = 0.8;

/** About as hot as a survey reads its cans, K. */
const HOTTEST = 311;

function fail(): never {
  throw new RangeError("nothing to pick from");
}

function pick<T>(list: readonly T[], weight: (each: T) => number, random: Random): T {
  let left = random() * list.reduce((sum, each) => sum + weight(each), 0);
  for (const each of list) {
    left -= weight(each);
    if (left <= 0) return each;
  }
  return list[list.length - 1] ?? fail();
}

/** A can drawn from the prior, filled to a random share; another one is drawn where physics has no answer. */
export function hiddenCan(random: Random): HiddenCan {
  for (;;) {
    const family = pick(families, ({ prior }) => prior, random);
    const can = family.fluids.length > 0 ? filled(family, random) : strange(family, random);
    if (can) return can;
  }
}

function filled(family: Family, random: Random): HiddenCan | undefined {
  const cell = pick(family.cells, ({ weight }) => weight, random);
  const u = Float64Array.from({ length: 8 }, () => random());
  const share = new Float64Array(8);
  cell.place(u, share);
  const masses = family.fluids
    .map((fluid, i) => ({ fluid, fraction: share[i] ?? 0 }))
    .filter(({ fraction }) => fraction > 0);
  const sum = masses.reduce((total, { fraction }) => total + fraction, 0);
  const whole = masses.map(({ fluid, fraction }) => ({ fluid, fraction: fraction / sum }));
  const material = materialOf(toMoles(whole));
  const liquid = 0.35 + 0.55 * random();
  const rho = densityAt(material, liquid);
  if (rho === undefined) return undefined;
  const pressure = (T: number): number => {
    const bulk = bulkAtTRho(material, T, rho);
    if (bulk.kind !== "bulk") throw new RangeError("no state");
    return bulk.p;
  };
  const liquidDensity = (T: number): number => {
    // Above any bubble point a refrigerant has: compressed liquid, a fraction of a per cent denser.
    const bulk = bulkAtTRho(material, T, rho);
    const found =
      bulk.kind === "bulk" ? bulk.phases.find(({ kind }) => kind === "liquid") : undefined;
    if (!found) throw new RangeError("no liquid");
    return found.rho;
  };
  try {
    for (const T of [268, 293, 318]) {
      pressure(T);
      liquidDensity(T);
    }
    // A can that would have burst is in nobody's hand.
    if (family.fluids.includes("R728") && pressure(HOTTEST) > burstPressure.can) return undefined;
  } catch {
    return undefined;
  }
  return { family, masses: whole, pressure, liquidDensity };
}

/** Contents by volume of a can with this share of liquid at 20 °C. */
function densityAt(material: Material, liquid: number): number | undefined {
  const M = material.moles.reduce(
    (sum, { fluid, fraction }) => sum + fraction * fluidInfo(fluid).M,
    0,
  );
  let [low, high] = [5, 3000];
  for (let k = 0; k < 40; k++) {
    const rho = (low + high) / 2;
    const bulk = bulkAtTRho(material, 293.15, rho);
    const found =
      bulk.kind === "bulk" ? bulk.phases.find(({ kind }) => kind === "liquid") : undefined;
    const share =
      bulk.kind === "bulk"
        ? bulk.phases.length === 1 && found
          ? 1
          : (found?.volumeShare ?? 0)
        : 1;
    if (share > liquid) high = rho;
    else low = rho;
  }
  return M > 0 && low < 2900 && bulkAtTP(material, 293.15, 1e5).kind === "bulk" ? low : undefined;
}

/** What is no refrigerant of the list: a fluid of its own, or gas. */
function strange(family: Family, random: Random): HiddenCan {
  const [a, b, c, d] = [random(), random(), random(), random()];
  if (family.kind === "gas") {
    const p = 2e5 * (1.5e7 / 2e5) ** a;
    return { family, masses: [], pressure: (T) => (p * T) / 293.15, liquidDensity: () => NaN };
  }
  const [Tb, slope, rho] = [170 + 150 * a, 8.5 + 4.5 * b, 300 + 1900 * c];
  const scatter = 0.005 * (0.4 / 0.005) ** d;
  return {
    family,
    masses: [],
    pressure: (T) => 101_325 * Math.exp(slope * (1 - Tb / T)) * (1 + scatter * normal(random)),
    liquidDensity: () => rho,
  };
}

/** Readings of a can at some temperatures, and of its liquid's density; without noise if no `random` is given. */
export function readingsOf(
  can: HiddenCan,
  temperatures: readonly number[],
  {
    density,
    noise,
    random,
  }: { readonly density: boolean; readonly noise: Noise; readonly random?: Random },
): Evidence[] {
  const z = () => (random ? normal(random) : 0);
  const [own, common] = [Math.sqrt(1 - SHARED), Math.sqrt(SHARED)];
  const [gauge, thermometer] = [z() * common, z() * common];
  const pressures = temperatures.map((T): Evidence => ({
    kind: "pressure",
    vessel: "can",
    T,
    uT: noise.T,
    p: can.pressure(T + noise.T * (thermometer + own * z())) + noise.p * (gauge + own * z()),
    u: noise.p,
    gauge: "manifold",
    thermometer: "clamp",
  }));
  if (!density || Number.isNaN(can.liquidDensity(293.15))) return pressures;
  const rho = can.liquidDensity(293.15);
  const u = noise.rho * rho;
  return [...pressures, { kind: "liquid-density", rho: rho + u * z(), u, T: 293.15 }];
}
