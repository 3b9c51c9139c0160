import {
  bubbleAtT,
  dewAtT,
  fluidIds,
  mixStatePH,
  mixStatePS,
  mixStateTP,
  mixStateTRho,
  mixture,
  type FluidId,
  type Mixture,
  type MixOutcome,
  type MixState,
} from "../../src/fluids/index.ts";
import { createRandom, type Random } from "../../src/numerics/index.ts";

/** Blends of the campaign: hydrocarbons, HFC and HFO, and R134a with hydrocarbons. */
export const campaignBlends: readonly (readonly FluidId[])[] = [
  ["R290", "R600a"],
  ["R290", "R600"],
  ["R290", "R600a", "R600"],
  ["R170", "R290"],
  ["R170", "R290", "R600a", "R600"],
  ["R1270", "R290"],
  ["R134a", "R1234yf"],
  ["R134a", "R1234ze(E)"],
  ["R134a", "R152a"],
  ["R1234yf", "R1234ze(E)"],
  ["R32", "R125"],
  ["R32", "R125", "R134a"],
  ["R125", "R143a", "R134a"],
  ["R32", "R1234yf"],
  ["R32", "R134a", "R1234ze(E)"],
  ["R134a", "R290"],
  ["R134a", "R600a"],
  ["R134a", "R290", "R600a"],
  ["R152a", "R600a"],
  ["R1234yf", "R290"],
  ["R1234yf", "R600a"],
  ["R125", "R134a", "R600", "R601a"],
  ["R32", "R125", "R143a", "R134a", "R152a", "R290", "R600a", "R600"],
];

/** What a campaign found. Deviations are relative; of beta absolute. */
export interface Tally {
  readonly flashes: number;
  readonly twoPhase: number;
  readonly failures: readonly string[];
  readonly worst: Readonly<Record<string, number>>;
}

/** A feed with its T, K, and p, Pa. */
export interface FlashCase {
  readonly mix: Mixture;
  readonly z: readonly number[];
  readonly T: number;
  readonly p: number;
}

/** A refrigerant with a permanent gas or carbon dioxide: 235–345 K, 0.02–60 MPa. */
export function randomGasCase(random: Random): FlashCase {
  const sets: readonly (readonly [FluidId, FluidId])[] = [
    ["R134a", "R728"],
    ["R290", "R728"],
    ["R1234yf", "R732"],
    ["R134a", "R744"],
    ["R600a", "R740"],
    ["R290", "R744"],
  ];
  const ids = sets[Math.floor(random() * sets.length)] ?? ["R134a", "R728"];
  const share = random();
  const mix = mixture(ids);
  const T = 235 + 110 * random();
  return { mix, z: [1 - share, share], T, p: Math.min(mix.limits.pmax, 0.02e6 * 3000 ** random()) };
}

/** Any two to six fluids but water: 240–340 K, 0.02–20 MPa. */
export function randomMixtureCase(random: Random): FlashCase {
  const others: FluidId[] = fluidIds.filter((id) => id !== "R718");
  const ids = Array.from({ length: 2 + Math.floor(5 * random()) }, () =>
    others.splice(Math.floor(random() * others.length), 1),
  ).flat();
  const mix = mixture(ids);
  const amounts = ids.map(() => 1e-6 - Math.log(1 - random()));
  const sum = amounts.reduce((total, each) => total + each, 0);
  const p = Math.min(mix.limits.pmax, 0.02e6 * 1000 ** random());
  return { mix, z: amounts.map((each) => each / sum), T: 240 + 100 * random(), p };
}

/** One random feed with its T and p: 230–345 K, 0.02–4 MPa; every second one is near two phases. */
export function randomCase(random: Random): FlashCase {
  const ids = campaignBlends[Math.floor(random() * campaignBlends.length)] ?? [];
  const amounts = ids.map(() => -Math.log(1 - random() * (1 - 1e-6)) + 1e-9);
  // One feed in eight has a trace of its first fluid.
  if (random() < 0.125) amounts[0] = 10 ** (-2 - 5 * random());
  const sum = amounts.reduce((total, each) => total + each, 0);
  const T = 230 + 115 * random();
  const mix = mixture(ids);
  const z = amounts.map((each) => each / sum);
  const anywhere = 0.02e6 * 200 ** random();
  const p = random() < 0.5 ? anywhere : (pressureNearSplit(mix, z, T, random) ?? anywhere);
  return { mix, z, T, p };
}

/** A pressure between dew and bubble point or up to a quarter of their distance beyond. */
function pressureNearSplit(
  mix: Mixture,
  z: readonly number[],
  T: number,
  random: Random,
): number | undefined {
  const share = 1.5 * random() - 0.25;
  const [dew, bubble] = [dewAtT(mix, z, T), bubbleAtT(mix, z, T)];
  if (dew.kind !== "state" || bubble.kind !== "state") return undefined;
  const p = dew.p * (bubble.p / dew.p) ** share;
  return p > 0.02e6 && p < 4e6 ? p : undefined;
}

/**
 * Splits random feeds at T and p, then finds each state again from (p,h), (p,s) and (T,v).
 *
 * @param count  Number of feeds; each is four flashes.
 * @param draw   What feeds; default: those of the blends of the campaign.
 */
export function runBlendFlashes(count: number, seed: number, draw = randomCase): Tally {
  const random = createRandom(seed);
  const failures: string[] = [];
  const worst: Record<string, number> = {};
  let twoPhase = 0;
  const note = (what: string, difference: number): void => {
    worst[what] = Math.max(worst[what] ?? 0, Math.abs(difference));
  };
  for (let k = 0; k < count; k++) {
    const { mix, z, T, p } = draw(random);
    const where = `${String(k)} ${mix.ids.join("+")} ${JSON.stringify(z)} ${String(T)} K ${String(p)} Pa`;
    const found = mixStateTP(mix, z, T, p);
    if (found.kind !== "state") {
      failures.push(`${where} (T,p): ${JSON.stringify(found)}`);
      continue;
    }
    if (found.phase === "two-phase") twoPhase++;
    note("fugacity", found.fugacityResidual);
    note("balance", balance(found));
    const again: readonly (readonly [string, MixOutcome])[] = [
      ["(p,h)", mixStatePH(mix, z, p, found.h)],
      ["(p,s)", mixStatePS(mix, z, p, found.s)],
      ["(T,v)", mixStateTRho(mix, z, T, found.rho)],
    ];
    for (const [what, other] of again) {
      if (other.kind !== "state") failures.push(`${where} ${what}: ${JSON.stringify(other)}`);
      else {
        const off = Math.max(Math.abs(other.T / T - 1), Math.abs(other.p / p - 1));
        if (off > 1e-8)
          failures.push(`${where} ${what}: T ${String(other.T)}, p ${String(other.p)}`);
        note(`T, p by ${what}`, off);
        note(`rho by ${what}`, other.rho / found.rho - 1);
        note(`fugacity by ${what}`, other.fugacityResidual);
      }
    }
  }
  return { flashes: 4 * count, twoPhase, failures, worst };
}

/** Largest |z − (1 − β)x − βy|. */
function balance({ z, beta, phases }: MixState): number {
  const [liquid, vapour] = phases;
  if (!liquid || !vapour) return 0;
  return Math.max(
    ...z.map((each, i) =>
      Math.abs(each - (1 - beta) * (liquid.x[i] ?? 0) - beta * (vapour.x[i] ?? 0)),
    ),
  );
}
