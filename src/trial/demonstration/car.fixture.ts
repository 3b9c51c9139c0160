import type { BodyOf } from "../events.ts";
import { InventedLog } from "./log.ts";

/** The log of a trial in which only the vehicle is described; `change` replaces what is said of it. */
export function logWithCar(noon: string, change: Partial<BodyOf<"vehicle-described">> = {}) {
  const log = new InventedLog(noon);
  log.add(noon, "trial-opened", { title: "t", question: "q" });
  log.add(noon, "vehicle-described", {
    name: "car",
    labelRefrigerant: "R134a",
    labelCharge: { value: 600, unit: "g" },
    meteringDevice: "orifice-tube",
    compressor: "fixed-cycling",
    ...change,
  });
  return log;
}
