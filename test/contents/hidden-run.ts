import type { Evidence } from "../../src/evidence/index.ts";
import { fluidInfo } from "../../src/fluids/index.ts";
import { normal, type Random } from "../../src/numerics/index.ts";
import { type Conditions, type Fill, pureComposition } from "../../src/vehicle/index.ts";
import { volumeOf } from "../../src/vehicle/system.ts";
import { type HiddenVehicle, hiddenVehicle, truth } from "../comparison/hidden-vehicle.ts";
import type { HiddenCan } from "./hidden-can.ts";

type Running = Extract<Evidence, { kind: "running" }>;
type Run = Running["runs"][number];

/** Standard uncertainties of readings, SI: digital manifold, thermocouple. */
const U = { low: 8e3, high: 25e3, vent: 0.4 } as const;
/** Part of an instrument's error that all its readings share, and what is left. */
const [COMMON, OWN] = [Math.sqrt(0.8), Math.sqrt(0.2)];
/** Of conditions: outside and return air, K; relative humidity. */
const AIR = { T: 0.4, humidity: 0.03 } as const;
/** Of the weighed charge, relative. */
const SCALE = 0.01;
const R = 8.314462618;
const LABEL = "R134a";
/** kg/m³ of it at 20 °C: a tester charges by the volume of the liquid. */
const LABEL_DENSITY = 1225;

const between = (random: Random, from: number, to: number): number => from + (to - from) * random();

/**
 * A hidden vehicle, with physics that the weighing's model lacks, run at idle and on the road on a charge from the
 * can and before that on its label refrigerant; read with noise.
 *
 * @returns undefined where the vehicle stops in one of the conditions.
 */
export function hiddenRun(
  can: HiddenCan,
  random: Random,
  { calibrated }: { readonly calibrated: boolean },
): Running | undefined {
  const hidden = hiddenVehicle(random, 1);
  const { labelCharge } = hidden.believed.values;
  const size = can.liquidDensity(293.15) / LABEL_DENSITY;
  const charge = labelCharge * size * between(random, 0.75, 1.1);
  const bias = { low: normal(random), high: normal(random), vent: normal(random) };
  const ride = (fill: Fill) =>
    [false, true].map((road) =>
      readRun(hidden, conditionsOf(random, road), fill, { bias, random }),
    );
  const runs = ride(fillOf(can, hidden, charge));
  const label: Fill = { composition: pureComposition(LABEL), charge: labelCharge, air: 0 };
  const baseline = calibrated ? ride(label) : [];
  const [all, sound] = [runs, baseline].map((some) => some.flatMap((run) => run ?? []));
  if (!all || !sound || all.length < runs.length || sound.length < baseline.length)
    return undefined;
  return {
    kind: "running",
    vehicle: hidden.believed,
    label: LABEL,
    charge: charge * (1 + SCALE * normal(random)),
    uCharge: SCALE * charge,
    runs: all,
    baseline: sound,
  };
}

/** What goes into the vehicle; air gathers as air. */
function fillOf({ masses }: HiddenCan, { vehicle }: HiddenVehicle, charge: number): Fill {
  const boils = masses.filter(({ fluid }) => fluid !== "R728");
  const whole = boils.reduce((sum, { fraction }) => sum + fraction, 0);
  const moles = ((1 - whole) * charge) / fluidInfo("R728").M;
  return {
    composition: {
      ids: boils.map(({ fluid }) => fluid),
      fractions: boils.map(({ fraction }) => fraction / whole),
    },
    charge,
    air: (moles * R * 300) / volumeOf(vehicle),
  };
}

const conditionsOf = (random: Random, road: boolean): Conditions => ({
  ambient: between(random, 295, 309),
  humidity: between(random, 0.3, 0.65),
  pAir: 101_325,
  speed: road ? between(random, 17, 22) : 0,
  engineSpeed: road ? between(random, 25, 30) : between(random, 11.2, 13),
  blower: 1,
  recirculation: 1,
  returnAir: {
    kind: "pull-down",
    share: road ? between(random, 0.8, 0.95) : between(random, 0.3, 0.6),
  },
  occupants: 1,
});

interface Reading {
  readonly bias: Readonly<Record<keyof typeof U, number>>;
  readonly random: Random;
}

function readRun(
  hidden: HiddenVehicle,
  conditions: Conditions,
  fill: Fill,
  { bias, random }: Reading,
): Run | undefined {
  const state = truth(hidden, conditions, fill);
  if (!state) return undefined;
  const read = (quantity: keyof typeof U, value: number): Run["readings"][number] => ({
    quantity,
    value: value + U[quantity] * (COMMON * bias[quantity] + OWN * normal(random)),
    u: U[quantity],
  });
  const humidity = conditions.humidity + AIR.humidity * normal(random);
  return {
    conditions: {
      ...conditions,
      ambient: conditions.ambient + AIR.T * normal(random),
      humidity: Math.min(0.9, Math.max(0.1, humidity)),
      returnAir: { kind: "measured", T: state.returnAir.T + AIR.T * normal(random) },
    },
    readings: [
      read("low", state.low),
      read("high", state.highOn ?? state.high),
      read("vent", state.vent),
    ],
  };
}
