import { editions, type Ventilation, ventilations } from "../service/index.ts";
import { choice, fraction, optional, quantity } from "./field.ts";
import { figure } from "./figure-field.ts";
import { TEMPERATURES } from "./saturation.ts";
import { substanceFields } from "./substance-field.ts";

const ventilationWords = ventilations
  .map(({ name, changes, words }) => `${name}: ${words}, ${changes}`)
  .join("; ");

/** A named assumption about fresh air, for who offers the choice. */
export interface VentilationChoice {
  readonly name: Ventilation;
  readonly words: string;
  /** Changes of the whole air an hour. */
  readonly changes: number;
}
export const ventilationChoices: readonly VentilationChoice[] = ventilations;

/** What a leak into a closed space is asked with. */
export const leakFields = {
  ...substanceFields,
  mass: quantity("mass", "Mass that escapes", { from: 1e-6, to: 50 }),
  volume: quantity("volume", "Free air of the cabin or bay, seats and people taken off", {
    from: 1e-3,
    to: 1e4,
  }),
  place: optional(choice("Where it leaks; the cabin if left out", ["cabin", "bay"])),
  ventilation: optional(
    choice(
      `Fresh air by a named assumption, changes of the whole air an hour at the low end of what studies report (${ventilationWords}); sealed if left out`,
      ventilations.map(({ name }) => name),
    ),
  ),
  airChanges: optional(
    figure("Fresh air as known, instead of a named assumption", "changes an hour", {
      from: 0,
      to: 1e4,
    }),
  ),
  blower: optional(
    choice(
      "On: the air is stirred, and the answer is for all of it. Off: heavy vapour lies in a layer, and the answer is for that. Stirred if left out, with the layer beside it",
      ["on", "off"],
    ),
  ),
  layerHeight: optional(
    quantity("length", "Height of the layer at the floor; 0.3 m if left out", {
      from: 1e-3,
      to: 10,
    }),
  ),
  floorArea: optional(
    figure("Floor under the layer; volume over 1.1 m if left out", "m2", { from: 1e-3, to: 1e4 }),
  ),
  layerExchange: optional(
    figure(
      "Air that the layer exchanges with that above it; none if left out",
      "changes of the layer an hour",
      {
        from: 0,
        to: 1e5,
      },
    ),
  ),
  hole: optional(
    quantity("length", "Diameter of the hole it leaks through; all at once if left out", {
      from: 1e-6,
      to: 0.05,
    }),
  ),
  phase: optional(
    choice("What leaves through the hole; liquid, which is quicker, if left out", [
      "liquid",
      "vapour",
    ]),
  ),
  discharge: optional(
    choice(
      "Liquid through the hole: bernoulli, without flashing, the most there can be; flashing, in equilibrium; bernoulli if left out",
      ["bernoulli", "flashing"],
    ),
  ),
  dischargeCoefficient: optional(fraction("Of the hole, 0.6 to 0.85 in most; 0.85 if left out")),
  T: optional(
    quantity(
      "temperature",
      "Temperature of the refrigerant behind the hole; 50 °C, a vehicle left in the sun, if left out",
      TEMPERATURES,
    ),
  ),
  systemVolume: optional(
    quantity(
      "volume",
      "Internal volume of the system: then pressure falls when the liquid is gone, and some vapour stays. If left out all of it leaves at full rate",
      { from: 1e-6, to: 1 },
    ),
  ),
  duration: optional(
    quantity("duration", "Time in which all of it leaks evenly, instead of a hole", {
      from: 1,
      to: 1e9,
    }),
  ),
  ratePerMinute: optional(
    quantity("mass", "Mass that leaks each minute, instead of a hole", { from: 1e-9, to: 50 }),
  ),
  airT: optional(
    quantity("temperature", "Temperature of the air; 25 °C if left out", { from: 223, to: 373 }),
  ),
  lfl: optional(
    quantity(
      "density",
      "Lower flammability limit at 25 °C and 101.325 kPa as tested for this product, if it is known better than here",
      { from: 1e-3, to: 2 },
    ),
  ),
  edition: optional(
    choice("Report of the IPCC for the CO2-equivalent; all three if left out", editions),
  ),
  until: optional(
    quantity("duration", "Length of the series; as long as something happens if left out", {
      from: 1,
      to: 1e8,
    }),
  ),
} as const;
