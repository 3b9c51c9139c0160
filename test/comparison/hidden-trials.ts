import { createRandom, normal, type Random } from "../../src/numerics/index.ts";
import type {
  Charged,
  ComparableReading,
  ComparableRun,
  ComparedQuantity,
  ComparisonInput,
} from "../../src/evidence/index.ts";
import type { Composition, Conditions, Fill, Running } from "../../src/vehicle/index.ts";
import { humidityRatio } from "../../src/vehicle/surroundings.ts";
import { errorSizes } from "../../src/evidence/comparison/errors.ts";
import { readOf } from "../../src/evidence/comparison/label-model.ts";
import { standardConditions } from "../../src/evidence/comparison/standard.ts";
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

/** Standard uncertainties: thermocouple class, gauges of class 1.6, and of a settled tail. */
const instruments: Readonly<Record<ComparedQuantity, readonly [class_: number, settling: number]>> =
  {
    vent: [0.3, 0.1],
    low: [10e3, 2e3],
    high: [32e3, 5e3],
  };
export const conditionErrors = {
  ambient: 0.4,
  humidity: 0.03,
  speed: 0.5,
  engineSpeed: 0.5,
  returnT: 0.4,
  returnHumidity: 0.03,
  pullDown: 0.12,
};
const pAir = 101_325;
const quantities = Object.keys(instruments) as ComparedQuantity[];

interface Maker {
  readonly hidden: HiddenVehicle;
  readonly random: Random;
  readonly bias: Readonly<Record<string, number>>;
  readonly common: readonly number[];
}

interface Asked {
  readonly kind: "idle" | "road";
  readonly charged: Charged;
  readonly ambient: number;
  readonly moment: number;
  readonly fill: { readonly composition: Composition; readonly charge: number; readonly air: 0 };
  readonly drift: Readonly<Record<ComparedQuantity, number>>;
}

const between = (random: Random, from: number, to: number): number => from + (to - from) * random();

function trueConditions({ random }: Maker, { kind, ambient }: Asked): Conditions {
  const road = kind === "road";
  const share = road ? between(random, 0.8, 0.95) : between(random, 0.3, 0.6);
  return {
    ambient,
    humidity: between(random, 0.3, 0.65),
    pAir,
    speed: road ? between(random, 17, 22) : 0,
    engineSpeed: road ? between(random, 25, 30) : between(random, 11.2, 13),
    blower: 1,
    recirculation: 1,
    returnAir: { kind: "pull-down", share },
    occupants: 1,
  };
}

/** Relative humidity from a humidity ratio. */
function relative(T: number, W: number): number {
  const saturated = humidityRatio(T, 1, pAir);
  const pressure = (w: number): number => (w * pAir) / (0.621945 + w);
  return pressure(W) / pressure(saturated);
}

interface Made {
  readonly run: ComparableRun;
  readonly state: Running;
  /** With the return air that there was. */
  readonly conditions: Conditions;
}

function makeRun(maker: Maker, asked: Asked, labelCharge: number): Made | undefined {
  const { hidden, random, common } = maker;
  const conditions = trueConditions(maker, asked);
  const state = truth(hidden, conditions, asked.fill);
  if (!state) return undefined;
  const { T, humidityRatio: W } = state.returnAir;
  const settled: Conditions = {
    ...conditions,
    returnAir: { kind: "measured", T, humidity: Math.min(1, relative(T, W)) },
  };
  const off = (k: number, u: number): number =>
    u * Math.SQRT1_2 * ((common[k] ?? 0) + normal(random));
  const e = conditionErrors;
  const readings = quantities.map((quantity): ComparableReading => {
    const [uInstrument, uRepeatability] = instruments[quantity];
    const noise = normal(random) * Math.hypot(uRepeatability, errorSizes[quantity].repeatability);
    const value =
      readOf(state, quantity, "steady", 0) +
      (maker.bias[quantity] ?? 0) * (1 + 0.1 * normal(random)) +
      asked.drift[quantity] +
      noise;
    return { quantity, form: "steady", value, uRepeatability, uInstrument, instrument: quantity };
  });
  const seen: Conditions = {
    ...conditions,
    ambient: conditions.ambient + off(0, e.ambient),
    humidity: Math.min(1, Math.max(0.05, conditions.humidity + off(1, e.humidity))),
    speed: conditions.speed > 0 ? conditions.speed + off(2, e.speed) : 0,
    engineSpeed: conditions.engineSpeed + off(3, e.engineSpeed),
    returnAir: {
      kind: "measured",
      T: T + off(4, e.returnT),
      humidity: Math.min(1, Math.max(0.05, relative(T, W) + off(5, e.returnHumidity))),
    },
  };
  const { kind, charged, moment } = asked;
  const id = `${kind} ${moment}`;
  const run = { id, kind, charged, moment, conditions: seen, u: e, charge: labelCharge, readings };
  return { run, state, conditions: settled };
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
  const bias = Object.fromEntries(
    quantities.map((quantity) => [quantity, instruments[quantity][0] * normal(random)]),
  );
  const common = Array.from({ length: 6 }, () => normal(random));
  const maker = { hidden, random, bias, common };
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
  const walk = (): typeof still => ({
    vent: errorSizes.vent.drift * Math.SQRT1_2 * normal(random),
    low: errorSizes.low.drift * Math.SQRT1_2 * normal(random),
    high: errorSizes.high.drift * Math.SQRT1_2 * normal(random),
  });
  const there = walk();
  const step = walk();
  const end = {
    vent: there.vent + step.vent,
    low: there.low + step.low,
    high: there.high + step.high,
  };
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
