import type { Circuit } from "./circuit.ts";
import { temperatureAt } from "./pack/isobar.ts";

/** What a reader of a result should be told. */
export type Note =
  /** The control holds the suction pressure: it tells nothing about charge or fluid. */
  | "low-side-held"
  /** The coil is colder than 0 °C where it condenses water. */
  | "coil-may-ice"
  /** Discharge above what hoses are rated for, 125 °C. */
  | "discharge-hot"
  /** Discharge above the highest temperature to which the equations are fitted. */
  | "discharge-above-equation"
  /** The thermostatic valve is wide open, or at its stop: the bulb does not suit the fluid or charge. */
  | "valve-wide-open"
  | "valve-at-stop"
  /** The buffer is empty: charge and volumes matter, and the answer is less certain. */
  | "starved"
  /** The buffer is full: real systems rise earlier than this model. */
  | "flooded"
  /** Nothing condenses: qualitative only. */
  | "gas-only"
  /** The least duty is reached: the coil may get colder than the control wants. */
  | "least-duty"
  /** Mixing parameters of some pair are estimates. */
  | "estimated-mixing"
  /** Air in the condenser is modelled crudely. */
  | "air-crude";

/** Hoses are rated to this, K: SAE J2064 (−30 to 125 °C, second-hand). */
const HOSE = 398.15;
const FREEZING = 273.15;

/** The notes of a solved circuit. */
export function notesOf(circuit: Circuit): readonly Note[] {
  const { sys, D, d, dis, c, a } = circuit;
  const discharge = temperatureAt(dis, circuit.hdis);
  const found: readonly (readonly [boolean, Note])[] = [
    [D < 1, "low-side-held"],
    [circuit.Tsurface < FREEZING, "coil-may-ice"],
    [discharge > HOSE, "discharge-hot"],
    [discharge > c.pack.Tmax, "discharge-above-equation"],
    [!sys.orifice && a >= 1, "valve-wide-open"],
    [!sys.orifice && a <= sys.aMin, "valve-at-stop"],
    [circuit.regime === "starved", "starved"],
    [circuit.regime === "flooded", "flooded"],
    [circuit.regime === "gas" || circuit.y <= -1, "gas-only"],
    [d <= sys.lnSmallest, "least-duty"],
    [c.pack.estimates.length > 0, "estimated-mixing"],
    [sys.pnc > 0, "air-crude"],
  ];
  return found.filter(([holds]) => holds).map(([, note]) => note);
}
