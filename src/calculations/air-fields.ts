import { type LocalAir, localAir } from "../service/index.ts";
import { invalidInput, type InvalidInput, issue } from "./answer.ts";
import { optional, pressure, quantity } from "./field.ts";

/** Where the air is: either tells what gauge pressures count from. */
export const airFields = {
  altitude: optional(
    quantity("length", "Altitude of the place above sea level", { from: -5000, to: 11000 }),
  ),
  barometer: optional(
    pressure("Air pressure read on the spot, not the sea-level figure of a forecast"),
  ),
} as const;

const within = (name: string, raw: unknown, from: number, to: number) =>
  invalidInput(issue(name, raw, `${from} to ${to} in SI, or the same in another unit`));

/** The local air of an input whose two fields were read, or what is wrong with them. */
export function airOf(
  values: { readonly altitude: number | undefined; readonly barometer: number | undefined },
  raw: { readonly altitude?: unknown; readonly barometer?: unknown },
): LocalAir | InvalidInput {
  const air = localAir(values);
  if (air.kind === "local-air") return air;
  const name = air.quantity === "barometer" ? "barometer" : "altitude";
  return within(name, raw[name], air.from, air.to);
}

/** What was taken for granted about the air; empty when a barometer was read. */
export function airAssumptions(air: LocalAir): readonly string[] {
  switch (air.basis) {
    case "barometer":
      return air.doubt === undefined
        ? []
        : [
            "The barometer is more than 4 kPa off the standard air of this altitude: if it is the sea-level figure of a forecast, leave it out and give the altitude alone.",
          ];
    case "altitude":
      return [
        `Local air taken as ${air.p.toFixed(0)} Pa, the standard atmosphere of this altitude; weather moves it by about 1 kPa (one standard uncertainty; common practice, no source).`,
      ];
    case "assumed":
      return [
        "Local air taken as 101325 Pa (sea level): neither barometer nor altitude was given. It falls by about 3.5 kPa (0.5 psi, 1 inHg) each 300 m, and what a gauge shows shifts with it.",
      ];
  }
}
