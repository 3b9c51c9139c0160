import { createRandom } from "../../src/numerics/index.ts";
import type { ComparedQuantity, ComparisonInput } from "../../src/evidence/index.ts";
import type { Composition, Fill } from "../../src/vehicle/index.ts";
import { readOf } from "../../src/evidence/comparison/label-model.ts";
import { standardConditions } from "../../src/evidence/comparison/standard.ts";
import {
  type Asked,
  between,
  driftOf,
  makerOf,
  makeRun,
  pAir,
  quantities,
  relative,
} from "./hidden-runs.ts";
import { type HiddenVehicle, hiddenVehicle, truth } from "./hidden-vehicle.ts";

const R134a: Composition = { ids: ["R134a"], fractions: [1] };
const products: readonly { readonly composition: Composition; readonly charge: number }[] = [
  { composition: { ids: ["R290", "R600a"], fractions: [0.6, 0.4] }, charge: 0.4 },
  { composition: { ids: ["R290", "R600a"], fractions: [0.6, 0.4] }, charge: 0.3 },
  { composition: { ids: ["R1234yf"], fractions: [1] }, charge: 1 },
  { composition: { ids: ["R152a"], fractions: [1] }, charge: 0.8 },
];

export interface HiddenTrial {
  readonly input: ComparisonInput;
  /** True effects of the product by kind of run and quantity, in the conditions of its runs. */
  readonly effects: readonly {
    readonly kind: string;
    readonly quantity: ComparedQuantity;
    readonly effect: number;
  }[];
  /** The same in the standard conditions, where the hidden vehicle runs in them on both. */
  readonly standard: readonly StandardEffect[];
}

export interface StandardEffect {
  readonly quantity: ComparedQuantity;
  readonly ambient: number;
  readonly driving: boolean;
  readonly effect: number;
}

/** Return air is what the label refrigerant makes of it there, and the same for the product. */
function standardEffects(hidden: HiddenVehicle, label: Fill, filled: Fill): StandardEffect[] {
  return standardConditions(pAir).flatMap(({ ambient, driving, conditions }) => {
    const before = truth(hidden, conditions, label);
    if (!before) return [];
    const { T, humidityRatio: W } = before.returnAir;
    const returnAir = { kind: "measured", T, humidity: Math.min(1, relative(T, W)) } as const;
    const after = truth(hidden, { ...conditions, returnAir }, filled);
    if (!after) return [];
    return quantities.map((quantity) => ({
      ...{ quantity, ambient, driving },
      effect: readOf(after, quantity, "steady", 0) - readOf(before, quantity, "steady", 0),
    }));
  });
}

/**
 * A trial of a hidden vehicle and one product: two ambients before, one after, the product on another day.
 *
 * @param oddities Size of the physics that the model lacks.
 * @returns undefined when the hidden vehicle stops in one of the conditions: such trials are drawn again.
 */
export function hiddenTrial(seed: number, oddities: number): HiddenTrial | undefined {
  const random = createRandom(seed);
  const hidden = hiddenVehicle(random, oddities);
  const maker = makerOf(hidden, random);
  const charge = hidden.believed.values.labelCharge;
  const first = 297 + 6 * random();
  const ambients = { before: first, second: first + between(random, 3, 6) };
  const product = products[Math.floor(random() * products.length)];
  if (!product) return undefined;
  const label = { composition: R134a, charge, air: 0 } as const;
  const filled = {
    composition: product.composition,
    charge: product.charge * charge,
    air: 0,
  } as const;
  const still = { vent: 0, low: 0, high: 0 };
  const { there, end } = driftOf(random);
  const away = first + between(random, -6, 8);
  const last = first + between(random, -3, 5);
  const asked = (["idle", "road"] as const).flatMap((kind): Asked[] => [
    { kind, charged: "before", ambient: ambients.before, moment: 0, fill: label, drift: still },
    { kind, charged: "before", ambient: ambients.second, moment: 1, fill: label, drift: still },
    { kind, charged: { product: "B" }, ambient: away, moment: 2, fill: filled, drift: there },
    { kind, charged: "after", ambient: last, moment: 3, fill: label, drift: end },
  ]);
  const made = asked.flatMap((one) => makeRun(maker, one, charge) ?? []);
  if (made.length < asked.length) return undefined;
  const effects = made
    .filter(({ run }) => typeof run.charged !== "string")
    .flatMap(({ run, state, conditions }) => {
      const twin = truth(hidden, conditions, label);
      if (!twin) return [];
      return quantities.map((quantity) => ({
        kind: run.kind,
        quantity,
        effect: readOf(state, quantity, "steady", 0) - readOf(twin, quantity, "steady", 0),
      }));
    });
  if (effects.length < 6) return undefined;
  const standard = standardEffects(hidden, label, filled);
  const input = {
    vehicle: hidden.believed,
    known: [],
    label: R134a,
    runs: made.map(({ run }) => run),
    margins: { vent: 1, low: 30e3, high: 100e3 },
  };
  return { input, effects, standard };
}
