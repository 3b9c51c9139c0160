import { normal, type Random } from "../../src/numerics/index.ts";
import type {
  Charged,
  ComparableReading,
  ComparableRun,
  ComparedQuantity,
} from "../../src/evidence/index.ts";
import type { Conditions, Fill, Running } from "../../src/vehicle/index.ts";
import { humidityRatio } from "../../src/vehicle/surroundings.ts";
import { errorSizes } from "../../src/evidence/comparison/errors.ts";
import { readOf } from "../../src/evidence/comparison/label-model.ts";
import { type HiddenVehicle, truth } from "./hidden-vehicle.ts";

/** Standard uncertainties: thermocouple class, gauges of class 1.6, and of a settled tail. */
export const instruments: Readonly<
  Record<ComparedQuantity, readonly [class_: number, settling: number]>
> = {
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
export const pAir = 101_325;
export const quantities = Object.keys(instruments) as ComparedQuantity[];

export type Shift = Readonly<Record<ComparedQuantity, number>>;

/** A tester with a vehicle: errors of instruments and of conditions that all of the runs share. */
export interface Maker {
  readonly hidden: HiddenVehicle;
  readonly random: Random;
  readonly bias: Shift;
  readonly common: readonly number[];
}

export interface Asked {
  readonly kind: "idle" | "road";
  readonly charged: Charged;
  readonly ambient: number;
  readonly moment: number;
  readonly fill: Fill;
  readonly drift: Shift;
  /** Conditions that are set, not met. */
  readonly conditions?: Conditions;
}

export function makerOf(hidden: HiddenVehicle, random: Random): Maker {
  const error = (quantity: ComparedQuantity): number => instruments[quantity][0] * normal(random);
  const bias = { vent: error("vent"), low: error("low"), high: error("high") };
  return { hidden, random, bias, common: Array.from({ length: 6 }, () => normal(random)) };
}

/** Drift of the vehicle at the product's runs and at its end: a walk of two steps. */
export function driftOf(random: Random): { readonly there: Shift; readonly end: Shift } {
  const walk = (): Shift => ({
    vent: errorSizes.vent.drift * Math.SQRT1_2 * normal(random),
    low: errorSizes.low.drift * Math.SQRT1_2 * normal(random),
    high: errorSizes.high.drift * Math.SQRT1_2 * normal(random),
  });
  const there = walk();
  return { there, end: sumOf(there, walk()) };
}

export const sumOf = (a: Shift, b: Shift): Shift => ({
  vent: a.vent + b.vent,
  low: a.low + b.low,
  high: a.high + b.high,
});

export const between = (random: Random, from: number, to: number): number =>
  from + (to - from) * random();

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
export function relative(T: number, W: number): number {
  const saturated = humidityRatio(T, 1, pAir);
  const pressure = (w: number): number => (w * pAir) / (0.621945 + w);
  return pressure(W) / pressure(saturated);
}

export interface Made {
  readonly run: ComparableRun;
  readonly state: Running;
  /** With the return air that there was. */
  readonly conditions: Conditions;
}

/** @returns undefined when the hidden vehicle stops. */
export function makeRun(maker: Maker, asked: Asked, labelCharge: number): Made | undefined {
  const { hidden, random, common } = maker;
  const conditions = asked.conditions ?? trueConditions(maker, asked);
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
      maker.bias[quantity] * (1 + 0.1 * normal(random)) +
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
