import { normal, type Random } from "../../../numerics/index.ts";
import type { Composition } from "../../../vehicle/index.ts";
import { fromSI } from "../../../units/index.ts";
import type { BodyOf, ReadingQuantity, Stage } from "../../events.ts";
import { column, micron, read } from "../hill-town-entries.ts";
import type { InventedLog } from "../log.ts";
import { byEye, clock, type Dialect, loggerFile, phaseSeconds, usDialect } from "./logger.ts";
import type { Things } from "./plan.ts";
import { pressureAtRest, type Steady, steadyState, type Weather } from "./system.ts";
import { harbourTruth } from "./truth.ts";

/** What every act of the story needs. */
export interface Story {
  readonly log: InventedLog;
  readonly things: Things;
  readonly random: Random;
}

export interface Where {
  readonly stage: Stage;
  readonly round?: string;
}

const { bias, pAir } = harbourTruth;

export interface Outing {
  readonly name: string;
  /** UTC of the entry, and local clock of the logger. */
  readonly at: string;
  readonly begins: string;
  readonly weather: Weather;
  readonly composition: Composition;
  /** kg in the vehicle. */
  readonly charge: number;
  readonly charged: BodyOf<"run-recorded">["charged"];
  readonly dialect?: Dialect;
  /** The road part was read by eye and entered on a phone without a connection. */
  readonly roadByHand?: boolean;
}

const conditions = { idle: "parked-idle", road: "road-steady" } as const;

/** One outing, parked and then on the road, with its logger file; gives nothing back but the log. */
export function outing(story: Story, where: Where, run: Outing): void {
  const { log, things, random } = story;
  const dialect = run.dialect ?? usDialect;
  const steady = (place: "idle" | "road"): Steady =>
    steadyState(run.composition, run.charge, run.weather, place);
  const logged = run.roadByHand === true ? (["idle"] as const) : (["idle", "road"] as const);
  const content = loggerFile(
    {
      begins: run.begins,
      phases: logged.map((place) => ({ where: place, steady: steady(place) })),
      rest: resting(run, run.weather.ambient),
    },
    dialect,
    random,
  );
  const trace = log.add(run.at, "trace-imported", {
    ...where,
    fileName: `${run.begins.slice(0, 10)}-${run.begins.slice(11, 13)}h.csv`,
    kind: "run",
    content,
    mapping: mappingOf(dialect, things),
  });
  let from = 0;
  for (const place of logged) {
    const to = from + phaseSeconds[place];
    log.add(run.at, "run-recorded", {
      ...where,
      ...usual,
      name: `${run.name}, ${place === "idle" ? "parked" : "road"}`,
      condition: conditions[place],
      charged: run.charged,
      trace,
      // The first rows of a part still belong to the change of speed.
      from: clock(run.begins, from + 20, { time: "iso" }),
      to: clock(run.begins, to - 5, { time: "iso" }),
    });
    from = to;
  }
  if (run.roadByHand === true) byHand(story, where, run, steady("road"));
}

const usual = { airSource: "recirculation", blower: "high" } as const;

const mappingOf = (
  { decimal, time, timeHead, heads }: Dialect,
  things: Things,
): BodyOf<"trace-imported">["mapping"] => ({
  decimal,
  time: { column: timeHead, form: time },
  columns: Object.entries(heads).map(([quantity, [head, unit]]) =>
    column(head, quantity as ReadingQuantity, unit, instrumentOf(things, quantity)),
  ),
});

function instrumentOf(things: Things, quantity: string): string | undefined {
  if (quantity === "low-side") return things.lowGauge;
  if (quantity === "high-side") return things.highGauge;
  if (quantity.endsWith("humidity")) return things.hygrometer;
  return quantity.endsWith("temperature") ? things.thermometer : undefined;
}

/** Settled figures read off the displays by the passenger, on a phone with no network. */
function byHand(story: Story, where: Where, run: Outing, steady: Steady): void {
  const { log, things, random } = story;
  const device = "road phone";
  const at = new Date(Date.parse(run.at) + 25 * 60_000).toISOString().replace(".000Z", "Z");
  const id = log.add(
    at,
    "run-recorded",
    {
      ...where,
      ...usual,
      name: `${run.name}, road`,
      condition: "road-steady",
      charged: run.charged,
      note: "Entered on the road without a connection; delivered in the evening.",
    },
    device,
  );
  const shown = (value: number, unit: string, step: number, scatter: number) => ({
    value: byEye(value + scatter * normal(random), unit, step),
    unit,
  });
  const { temperature, humidity } = bias;
  const rows: [ReadingQuantity, { value: number; unit: string }][] = [
    ["low-side", shown(steady.low + bias.low, "psig", 0.5, 1500)],
    ["high-side", shown(steady.high + bias.high, "psig", 1, 5000)],
    ["vent-temperature", shown(steady.vent + temperature, "°F", 0.2, 0.1)],
    ["return-air-temperature", shown(steady.returnTemperature + temperature, "°F", 0.2, 0.1)],
    ["return-air-humidity", shown(steady.returnHumidity + humidity, "%", 1, 0.005)],
    ["outside-temperature", shown(steady.outside + temperature, "°F", 0.2, 0.1)],
    ["vehicle-speed", { value: 45, unit: "mph" }],
  ];
  for (const [quantity, value] of rows) {
    const instrument = instrumentOf(things, quantity);
    log.add(
      at,
      "reading-taken",
      { ...where, run: id, quantity, value, form: "steady", ...(instrument && { instrument }) },
      device,
    );
  }
}

/** What is in the vehicle, kg. */
type Filled = Pick<Outing, "composition" | "charge">;

const resting = ({ composition, charge }: Filled, T: number): number =>
  pressureAtRest(composition, T, charge / harbourTruth.internalVolume);

/** Pressures at rest with the metal's temperature. */
export function atRest(
  { log, things }: Story,
  where: Where,
  at: string,
  filled: Filled,
  T: number,
): void {
  const p = resting(filled, T);
  const low = { value: byEye(p + bias.low, "psig", 0.5), unit: "psig" };
  const high = { value: byEye(p + bias.high, "psig", 0.5), unit: "psig" };
  read(log, at, where, "static-low", low, things.lowGauge);
  read(log, at, where, "static-high", high, things.highGauge);
  const metal = { value: byEye(T + bias.temperature, "°C", 0.1), unit: "°C" };
  read(log, at, where, "metal-temperature", metal, things.thermometer);
}

/** A hold trace: what the gauge showed each minute, in microns. @param p  Pa at a time in s. */
export function hold(
  { log, things, random }: Story,
  where: Where,
  at: string,
  name: string,
  p: (t: number) => number,
): void {
  const rows = Array.from({ length: 31 }, (_, i) => {
    const shown = fromSI(p(i * 60) * (1 + 0.01 * normal(random)), "micron", pAir);
    return `${i},${Math.round(shown / 5) * 5}`;
  });
  log.add(at, "trace-imported", {
    ...where,
    fileName: name,
    kind: "hold",
    content: `minute,micron\n${rows.join("\n")}\n`,
    mapping: {
      decimal: ".",
      time: { column: "minute", form: "elapsed", unit: "min" },
      columns: [column("micron", "vacuum", "micron", things.vacuumGauge)],
    },
  });
}

/** A tight and nearly dry system: what the oil still gives off soon ends. */
export const tight = (t: number): number => 44 + 16 * (1 - Math.exp(-t / 420));

/** The same with a leak at a valve core. */
export const leaking = (t: number): number =>
  tight(t) + (harbourTruth.leak * t) / harbourTruth.internalVolume;

/** Pump, vacuum reached, and the hold of an evacuation that went well. */
export function evacuated(story: Story, where: Where, day: string): void {
  const { log, things } = story;
  const at = `${day}T08:40:00Z`;
  read(log, at, where, "pump-time", { value: 45, unit: "min" });
  read(log, at, where, "shop-temperature", { value: 22.5, unit: "°C" }, things.thermometer);
  read(log, at, where, "vacuum", micron(330), things.vacuumGauge);
  hold(story, where, `${day}T09:15:00Z`, `hold-${day}.csv`, tight);
  log.add(`${day}T09:20:00Z`, "vessel-found-empty", {
    ...where,
    vessel: "vehicle",
    evidence: "Evacuated for 45 minutes; the vacuum held for half an hour.",
  });
}
