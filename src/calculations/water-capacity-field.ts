import { z } from "zod";
import { parseQuantity, toSI } from "../units/index.ts";
import { type Field, type Limits, unusable } from "./field.ts";

/** Cylinders and cans, m3. */
const VESSELS: Limits = { from: 1e-5, to: 100 };
/** Capacities are marked as if water weighed this, kg/m3. */
const WATER = 1000;
const accepted = `a volume from ${VESSELS.from} to ${VESSELS.to} m3, or a mass of water such as "26.2 lb" or "11.9 kg"`;

/** A water capacity as stamped: a mass of water, or a volume. A number is a volume in m3. */
export const waterCapacityField: Field<number> = {
  schema: z
    .union([z.number(), z.string().max(80)])
    .describe(`Water capacity as stamped: ${accepted}. A number is a volume in m3.`),
  required: true,
  read(raw, name) {
    const value = typeof raw === "string" ? capacityOf(raw) : Number(raw);
    return value !== undefined && value >= VESSELS.from && value <= VESSELS.to
      ? { kind: "value", value }
      : unusable(name, raw, accepted);
  },
};

function capacityOf(text: string): number | undefined {
  const mass = parseQuantity(text, "mass");
  if (mass.kind !== "invalid") return toSI(mass.quantity) / WATER;
  const volume = parseQuantity(text, "volume");
  return volume.kind === "invalid" ? undefined : toSI(volume.quantity);
}
