import { type Shown, shownDifference, shownIn } from "../../report/index.ts";
import { type FluidUnits, fluidUnits } from "../fluids/fluid-units.ts";
import { preferences } from "../shell/preferences.ts";

/** How this page shows its quantities. */
export interface VehicleUnits extends FluidUnits {
  readonly mass: Shown;
  readonly dMass: Shown;
  readonly power: Shown;
  readonly dPower: Shown;
  readonly speed: Shown;
  readonly ratio: Shown;
  readonly dRatio: Shown;
}

const units = {
  us: { mass: "lb", power: "Btu/h", speed: "mph" },
  si: { mass: "g", power: "kW", speed: "km/h" },
} as const;

/** @param air Local air pressure, Pa: gauges count from it. */
export function vehicleUnits(air: number): VehicleUnits {
  const { mass, power, speed } = units[preferences.value.system];
  return {
    ...fluidUnits(air),
    mass: shownIn(mass),
    dMass: shownDifference(mass),
    power: shownIn(power),
    dPower: shownDifference(power),
    speed: shownIn(speed),
    ratio: shownIn("%"),
    dRatio: shownDifference("%"),
  };
}
