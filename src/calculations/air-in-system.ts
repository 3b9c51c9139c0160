import { z } from "zod";
import { type FluidId, fluidInfo } from "../fluids/index.ts";
import {
  bulkAtTRho,
  type BulkFailure,
  type Material,
  materialOf,
  type Part,
  pressureDoubt,
} from "../service/index.ts";
import { airAssumptions } from "./air-fields.ts";
import { invalidInput, issue } from "./answer.ts";
import { estimateSentences, noBulk, pairSources } from "./blend-answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { choice, optional, quantity } from "./field.ts";
import { fluidSource } from "./fluid-field.ts";
import { TEMPERATURES } from "./saturation.ts";
import {
  type Substance,
  substanceFields,
  substanceOf,
  substanceSources,
} from "./substance-field.ts";
import { contentsFields, contentsView } from "./vessel.ts";
import { vesselFields } from "./vessel-fields.ts";

const point = z.strictObject({
  T: z.number().describe("Temperature, K"),
  ...contentsFields,
  without: z.number().describe("Pressure of the same fill without the gas, absolute, Pa"),
  excess: z.number().describe("What the gas adds, Pa"),
  inVapour: z.number().describe("The gas in the vapour, fraction by mole"),
});
const output = z.strictObject({
  points: z.array(point).describe("At the temperature, and at the second one if given"),
  gas: z.enum(["air", "nitrogen"]),
});

/** Dry air without its argon, by mole: oxygen is 20.95 % of the whole, the rest counts as nitrogen. */
const GASES: Readonly<Record<"air" | "nitrogen", readonly Part[]>> = {
  air: [
    { fluid: "R728", fraction: 0.7905 },
    { fluid: "R732", fraction: 0.2095 },
  ],
  nitrogen: [{ fluid: "R728", fraction: 1 }],
};
const MOST_PARTS = 8;

/** Amounts of all fluids, mol: the fill and the gas. */
function amountsOf(
  substance: Substance,
  mass: number,
  gas: readonly Part[],
  gasMass: number,
): ReadonlyMap<FluidId, number> {
  const amounts = new Map<FluidId, number>();
  const add = (parts: readonly Part[], total: number) => {
    const M = parts.reduce((sum, { fluid, fraction }) => sum + fraction * fluidInfo(fluid).M, 0);
    for (const { fluid, fraction } of parts) {
      amounts.set(fluid, (amounts.get(fluid) ?? 0) + (fraction * total) / M);
    }
  };
  add(substance.moles, mass);
  add(gas, gasMass);
  return amounts;
}

function fractionsOf(amounts: ReadonlyMap<FluidId, number>): readonly Part[] {
  const total = [...amounts.values()].reduce((sum, each) => sum + each, 0);
  return [...amounts].map(([fluid, amount]) => ({ fluid, fraction: amount / total }));
}

/** A fill with and without the gas in it. */
interface Fill {
  readonly gas: readonly Part[];
  readonly mixed: { readonly material: Material; readonly rho: number };
  readonly clean: { readonly material: Material; readonly rho: number };
  readonly localAir: number;
}

/** What the fill shows at a temperature, with and without the gas. */
function pointAt(
  { gas, mixed, clean, localAir }: Fill,
  T: number,
): z.infer<typeof point> | BulkFailure {
  const bulk = bulkAtTRho(mixed.material, T, mixed.rho);
  if (bulk.kind === "failed") return bulk;
  const bare = bulkAtTRho(clean.material, T, clean.rho);
  if (bare.kind === "failed") return bare;
  const vapour = bulk.phases.at(-1)?.moles ?? [];
  const inVapour = vapour
    .filter(({ fluid }) => gas.some((part) => part.fluid === fluid))
    .reduce((sum, { fraction }) => sum + fraction, 0);
  const contents = contentsView(bulk, localAir);
  return { T, ...contents, without: bare.p, excess: bulk.p - bare.p, inVapour };
}

export const airInSystem = defineCalculation({
  name: "air-in-system",
  title: "What air or nitrogen adds to the pressure of a refrigerant, at one or two temperatures",
  fields: {
    ...substanceFields,
    ...vesselFields,
    air: quantity("mass", "Mass of the gas inside", { from: 1e-9, to: 1e3 }),
    gas: optional(choice("Which gas; air if left out", ["air", "nitrogen"])),
    T2: optional(quantity("temperature", "Second temperature", TEMPERATURES)),
  },
  output,
  cautions: [cautions.ports, cautions.identity, cautions.leakTest, cautions.rules],
  sources: ["Equilibrium at the vessel's temperature, volume and mass: least Helmholtz energy"],
  run({ fluid, blend, volume, mass, T, air: gasMass, gas = "air", T2 }, localAir) {
    const substance = substanceOf({ fluid, blend });
    if (substance.kind === "invalid") return substance;
    const amounts = amountsOf(substance, mass, GASES[gas], gasMass);
    if (amounts.size > MOST_PARTS) {
      const most = MOST_PARTS - GASES[gas].length;
      return invalidInput(issue("blend", amounts.size, `at most ${most} parts beside the gas`));
    }
    const material = materialOf(fractionsOf(amounts));
    const rho = (mass + gasMass) / volume;
    const fill: Fill = {
      gas: GASES[gas],
      mixed: { material, rho },
      clean: { material: materialOf(substance.moles), rho: mass / volume },
      localAir: localAir.p,
    };
    const results = (T2 === undefined ? [T] : [T, T2]).map((each) => pointAt(fill, each));
    const failure = results.find((each) => "reason" in each);
    if (failure) return noBulk(`${substance.name} with ${gas}`, failure);
    const points = results.filter((each) => "excess" in each);
    const u = pressureDoubt(material, points[0]?.p ?? 0, (other) => bulkAtTRho(other, T, rho));
    return {
      kind: "answer",
      result: { points, gas },
      uncertainty: { p: u },
      ...(gas === "air" && { cautions: [cautions.oxygen] }),
      sources: [
        ...substanceSources(substance),
        ...GASES[gas].map((part) => fluidSource(part.fluid)),
        ...pairSources(material),
      ],
      assumptions: [
        "The system has stood until all of it has one temperature, and the gas has spread through it.",
        ...estimateSentences(material),
        ...airAssumptions(localAir),
      ],
    };
  },
});
