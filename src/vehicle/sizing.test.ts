import { describe, expect, test } from "vitest";
import {
  parameterInfo,
  presetNames,
  presetVehicle,
  pureComposition,
  runVehicle,
  sizedVehicle,
} from "./index.ts";

const idle = {
  ambient: 308.15,
  humidity: 0.4,
  pAir: 101325,
  speed: 0,
  engineSpeed: 12,
  blower: 1,
  recirculation: 1,
  returnAir: { kind: "pull-down", share: 0.45 },
  occupants: 1,
} as const;

describe.each(presetNames)("%s", (preset) => {
  const own = presetVehicle(preset);

  test("its own label charge gives it back", () => {
    expect(sizedVehicle(preset, own.values.labelCharge)).toEqual(own);
  });

  test.each([0.6, 1.5])(
    "%f times the charge still runs, and cools more the larger it is",
    (ratio) => {
      const labelCharge = ratio * own.values.labelCharge;
      const sized = sizedVehicle(preset, labelCharge);
      if (!sized) throw new RangeError("not sized");
      const run = (vehicle: typeof own) =>
        runVehicle({
          vehicle,
          conditions: idle,
          fill: {
            composition: pureComposition("R134a"),
            charge: vehicle.values.labelCharge,
            air: 0,
          },
        });
      const [before, after] = [run(own), run(sized)];
      if (before.kind !== "running" || after.kind !== "running")
        throw new RangeError("not running");
      // Intensive readings stay nearly where they were: size changes how much, not how cold.
      expect(Math.abs(after.high - before.high)).toBeLessThan(40e3);
      expect(Math.abs(after.vent - before.vent)).toBeLessThan(1);
      expect(after.capacity / before.capacity).toBeCloseTo(ratio ** 0.77, 1);
    },
  );

  test("a charge of another kind of vehicle is refused", () => {
    expect(sizedVehicle(preset, 0.1 * own.values.labelCharge)).toBeUndefined();
    expect(parameterInfo("labelCharge").unit).toBe("kg");
  });
});
