import type { Composition, ParameterName } from "../../../vehicle/index.ts";

/**
 * What is really so in the invented harbour trial. The tester never sees it; readings are made from it,
 * and a test holds the report's verdicts against it.
 */

const one = (id: string): Composition => ({
  ids: [id as Composition["ids"][number]],
  fractions: [1],
});

export interface HiddenCan {
  /** Mass fractions. */
  readonly composition: Composition;
  /** kg in each can, by the can. */
  readonly masses: readonly [number, number];
  /** Empty can with its valve, kg, and its inner volume, m3. */
  readonly tare: number;
  readonly volume: number;
}

/** Heron holds what it says. */
const heron: HiddenCan = {
  composition: one("R134a"),
  masses: [0.3405, 0.3392],
  tare: 0.1183,
  volume: 0.43e-3,
};

/** Kestrel holds a quarter less than it says. */
const kestrel: HiddenCan = {
  composition: { ids: ["R290", "R600a"], fractions: [0.58, 0.42] },
  masses: [0.1282, 0.1279],
  tare: 0.0968,
  volume: 0.345e-3,
};

/** Magpie is cut with R22. */
const magpie: HiddenCan = {
  composition: { ids: ["R22", "R134a"], fractions: [0.26, 0.74] },
  masses: [0.3388, 0.3396],
  tare: 0.1179,
  volume: 0.43e-3,
};

export const harbourTruth = {
  cans: { heron, kestrel, magpie },
  label: one("R134a"),
  labelCharge: 0.6,
  /** kg in the vehicle when it arrives. */
  found: 0.582,
  /** m3 */
  internalVolume: 2.15e-3,
  /** Factors by which this vehicle differs from its kind. */
  vehicle: {
    fanFlow: 0.88,
    condenserAirUA: 1.07,
    evaporatorAirUA: 0.95,
    displacement: 1.03,
    airFlow: 0.97,
    suctionSetting: 1.02,
  } satisfies Partial<Record<ParameterName, number>>,
  /** What each instrument adds to the truth: Pa, Pa, K, fraction. */
  bias: { low: 3400, high: -10_300, temperature: 0.2, humidity: 0.01 },
  /** Air pressure of the place, Pa. */
  pAir: 101_100,
  /** Leak at a valve core before it was replaced, Pa m3/s into the vacuum. */
  leak: 2.3e-3,
} as const;
