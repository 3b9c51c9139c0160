import { quantityDimension } from "../dimensions.ts";
import type { ReadingForm, ReadingQuantity, Stage } from "../events.ts";
import { given } from "../given.ts";
import { quantityNames } from "../quantity-names.ts";
import type { VehicleView, VesselView } from "../view.ts";
import type { ReadingPrompt } from "./view.ts";

const worth =
  "Worth more than any other refinement: the state of the air that enters the evaporator moves every other reading.";

const pressure = { us: "psig", si: "bar(g)" };
const temperature = { us: "°F", si: "°C" };
const both = (unit: string) => ({ us: unit, si: unit });

interface Wording {
  readonly unit: ReadingPrompt["defaultUnit"];
  readonly place?: string;
  readonly why?: string;
}

const wordings: Readonly<Record<ReadingQuantity, Wording>> = {
  "static-low": {
    unit: pressure,
    place: "low-side service port",
    why: "With the engine off and cold it shows whether the contents follow the expected fluid. It does not measure the charge.",
  },
  "static-high": { unit: pressure, place: "high-side service port" },
  "metal-temperature": {
    unit: temperature,
    place: "pipe next to the service port, shaded",
    why: "The pressure at rest belongs to the coldest metal, not to the air.",
  },
  "low-side": { unit: pressure, place: "low-side service port" },
  "high-side": { unit: pressure, place: "high-side service port" },
  "vent-temperature": {
    unit: temperature,
    place: "centre vent, probe 25 mm deep",
    why: "Outlets differ by 1 to 4 K: use the same outlet, the same depth, every time.",
  },
  "return-air-temperature": {
    unit: temperature,
    place: "air intake of the blower",
    why: worth,
  },
  "return-air-humidity": {
    unit: both("%"),
    place: "air intake of the blower",
    why: worth,
  },
  "outside-temperature": {
    unit: temperature,
    place: "in the shade, in front of the grille",
  },
  "outside-humidity": { unit: both("%") },
  "shop-temperature": {
    unit: temperature,
    why: "Water boils off only while its pressure at this temperature is above the vacuum.",
  },
  barometer: {
    unit: { us: "inHg", si: "mbar" },
    why: "Station pressure, not the sea-level figure of a forecast: every gauge reading counts from it.",
  },
  "vehicle-speed": { unit: { us: "mph", si: "km/h" } },
  "engine-speed": { unit: both("rpm") },
  vacuum: {
    unit: { us: "micron", si: "mbar" },
    place: "far side of the system, not at the pump",
  },
  "gross-mass": {
    unit: { us: "lb", si: "kg" },
    why: "Gross less tare is what is inside, beside the ledger.",
  },
  "can-volume": {
    unit: both("mL"),
    why: "What the emptied can still holds as vapour follows from its volume.",
  },
  "oil-drained": { unit: both("mL") },
  "oil-returned": { unit: both("mL"), why: "Put back what came out, new." },
  "pump-time": { unit: both("min") },
  "discharge-temperature": { unit: temperature, place: "compressor outlet, insulated clamp" },
  "suction-line-temperature": {
    unit: temperature,
    place: "pipe at the compressor, insulated clamp",
  },
  "liquid-line-temperature": {
    unit: temperature,
    place: "pipe after the condenser, insulated clamp",
  },
  superheat: { unit: { us: "Δ°F", si: "K" } },
  subcooling: { unit: { us: "Δ°F", si: "K" } },
  "clutch-duty": { unit: both("%") },
  "vessel-pressure": { unit: pressure, place: "valve of the vessel, standing still" },
  "vessel-temperature": {
    unit: temperature,
    place: "wall below the liquid level, shaded, after an hour at rest",
    why: "Pressure says what is inside only together with the temperature of the liquid.",
  },
  "boiling-temperature": { unit: temperature },
};

const running: readonly ReadingQuantity[] = [
  "return-air-temperature",
  "return-air-humidity",
  "outside-temperature",
  "low-side",
  "high-side",
  "vent-temperature",
  "outside-humidity",
  "vehicle-speed",
  "engine-speed",
];

const atRest: readonly ReadingQuantity[] = ["static-low", "static-high", "metal-temperature"];
const evacuating: readonly ReadingQuantity[] = ["vacuum", "shop-temperature", "pump-time"];

const asked: Readonly<Record<Stage, readonly ReadingQuantity[]>> = {
  plan: ["barometer"],
  prove: [...atRest, ...running],
  recover: ["low-side", "oil-drained"],
  evacuate: evacuating,
  charge: ["oil-returned", "can-volume"],
  run: [...running, ...atRest],
  identify: ["vessel-temperature", "vessel-pressure", "gross-mass", "can-volume"],
  restore: ["oil-drained", ...evacuating, ...running],
  compare: [],
  hazards: [],
  claims: [],
  publish: [],
};

const swings: ReadonlySet<ReadingQuantity> = new Set(["low-side", "high-side", "vent-temperature"]);

/** A fixed compressor that cycles shows two readings; "steady" would be a moment nobody can name. */
function formsOf(
  quantity: ReadingQuantity,
  stage: Stage,
  compressor: VehicleView["compressor"] | undefined,
): readonly ReadingForm[] {
  const isRunning = stage === "prove" || stage === "run" || stage === "restore";
  if (!swings.has(quantity) || !isRunning) return ["steady"];
  return compressor === "fixed-cycling"
    ? ["lowest", "highest", "steady"]
    : ["steady", "lowest", "highest"];
}

export function promptOf(
  quantity: ReadingQuantity,
  stage: Stage,
  vehicle: VehicleView | undefined,
): ReadingPrompt {
  const { unit, place, why } = wordings[quantity];
  return given({
    id: quantity,
    quantity,
    label: quantityNames[quantity],
    dimension: quantityDimension[quantity],
    defaultUnit: unit,
    forms: formsOf(quantity, stage, vehicle?.compressor),
    place,
    why,
  });
}

/** What the same quantities are for at Identify. */
const identifyWords: Readonly<Partial<Record<ReadingQuantity, { readonly why: string }>>> = {
  "vessel-pressure": {
    why: "Read it at two temperatures far apart, such as in the shade and in ice water: one alone fits many contents. Water no warmer than 40 °C; never any other heat.",
  },
  "gross-mass": {
    why: "Before anything was taken out: mass and volume of the full can tell the density of its liquid.",
  },
  "can-volume": { why: "By the water that the closed can displaces; nothing is opened." },
};

const weighsVessels: ReadonlySet<Stage> = new Set(["recover", "charge", "restore"]);

/** What a stage asks for, most useful first; vessels to weigh come last, one prompt each. */
export function promptsFor(
  stage: Stage,
  vehicle: VehicleView | undefined,
  vessels: readonly VesselView[],
): ReadingPrompt[] {
  const plain = asked[stage].map((quantity) => ({
    ...promptOf(quantity, stage, vehicle),
    ...(stage === "identify" && identifyWords[quantity]),
  }));
  if (!weighsVessels.has(stage)) return plain;
  const weighed = vessels
    .filter(({ tare }) => tare !== undefined)
    .map(({ id, name }) => ({
      ...promptOf("gross-mass", stage, vehicle),
      id: `gross-mass:${id}`,
      label: `Gross mass of ${name}`,
      vessel: id,
    }));
  return [...plain, ...weighed];
}
