import { type Shown, shownDifference, shownIn } from "../../report/index.ts";
import { preferences } from "../shell/preferences.ts";

/** How this page shows its quantities. */
export interface FluidUnits {
  readonly T: Shown;
  readonly dT: Shown;
  readonly gauge: Shown;
  /** A difference of pressures. */
  readonly dP: Shown;
  readonly absolute: Shown;
  readonly h: Shown;
  readonly rho: Shown;
}

const units = {
  us: { T: "°F", gauge: "psig", absolute: "psia", h: "Btu/lb", rho: "lb/ft3" },
  si: { T: "°C", gauge: "bar(g)", absolute: "bar", h: "kJ/kg", rho: "kg/m3" },
} as const;

/** @param air Local air pressure, Pa: gauges count from it. */
export function fluidUnits(air: number): FluidUnits {
  const { T, gauge, absolute, h, rho } = units[preferences.value.system];
  return {
    T: shownIn(T),
    dT: shownDifference(T),
    gauge: shownIn(gauge, air),
    dP: shownDifference(gauge),
    absolute: shownIn(absolute),
    h: shownIn(h),
    rho: shownIn(rho),
  };
}
