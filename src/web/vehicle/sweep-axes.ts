import type { Shown } from "../../report/index.ts";
import type { VehicleUnits } from "./vehicle-units.ts";

/** A condition along which the readings are followed, with SI ends. */
export interface SweepAxis {
  readonly name: "ambient" | "speed" | "humidity" | "charge";
  readonly label: string;
  /** In a list of choices. */
  readonly short: string;
  readonly from: number;
  readonly to: number;
  readonly shown: Shown;
}

/** Shares of the label charge: from nearly empty to well overfilled. */
const CHARGES = { from: 0.3, to: 1.4 } as const;
/** 15 to 50 °C. */
const DAYS = { from: 288.15, to: 323.15 } as const;
/** To 30 m/s. */
const ROADS = { from: 0, to: 30 } as const;

/** @param label Charge on the label, kg. */
export const sweepAxes = (label: number, units: VehicleUnits): readonly SweepAxis[] => [
  { name: "ambient", label: "Outside temperature", short: "Temperature", ...DAYS, shown: units.T },
  { name: "speed", label: "Road speed", short: "Speed", ...ROADS, shown: units.speed },
  {
    name: "humidity",
    label: "Outside humidity",
    short: "Humidity",
    from: 0.05,
    to: 0.95,
    shown: units.ratio,
  },
  {
    name: "charge",
    label: "Charge",
    short: "Charge",
    from: CHARGES.from * label,
    to: CHARGES.to * label,
    shown: units.mass,
  },
];

/** Points of a sweep: one about every ten pixels. */
export const STEPS = 45;
