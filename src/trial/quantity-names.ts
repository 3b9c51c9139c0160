import type { ReadingQuantity } from "./events.ts";

/** What people call each reading. One table, so that fields, requirements, screens and report agree. */
export const quantityNames: Readonly<Record<ReadingQuantity, string>> = {
  "static-low": "Low side at rest",
  "static-high": "High side at rest",
  "metal-temperature": "Metal at the port",
  "low-side": "Low side",
  "high-side": "High side",
  "vent-temperature": "Vent air",
  "return-air-temperature": "Return-air temperature",
  "return-air-humidity": "Return-air humidity",
  "outside-temperature": "Outside air",
  "outside-humidity": "Outside humidity",
  "shop-temperature": "Shop temperature",
  barometer: "Barometer",
  "vehicle-speed": "Road speed",
  "engine-speed": "Engine speed",
  vacuum: "Vacuum",
  "gross-mass": "Gross mass",
  "can-volume": "Can volume",
  "oil-drained": "Oil drained",
  "oil-returned": "Oil put back",
  "pump-time": "Pump time",
  "discharge-temperature": "Discharge line",
  "suction-line-temperature": "Suction line",
  "liquid-line-temperature": "Liquid line",
  superheat: "Superheat",
  subcooling: "Subcooling",
  "clutch-duty": "Share of time the clutch is in",
  "vessel-pressure": "Pressure in the vessel",
  "vessel-temperature": "Temperature of the vessel",
  "boiling-temperature": "Boiling temperature at outside pressure",
};

/** The same inside a sentence. */
export const quantityWords = (quantity: ReadingQuantity): string =>
  quantityNames[quantity].toLowerCase();
