import { normal, type Random } from "../../../numerics/index.ts";
import { fromSI } from "../../../units/index.ts";
import type { ReadingQuantity } from "../../events.ts";
import type { Steady } from "./system.ts";
import { harbourTruth } from "./truth.ts";

/** How one signal approaches its end, and how the instrument shakes. SI. */
interface Signal {
  readonly of: keyof Steady;
  readonly quantity: ReadingQuantity;
  /** Time constant, s. */
  readonly tau: number;
  readonly noise: number;
  readonly bias: number;
  /** Where it starts before the compressor runs. */
  readonly begin: number;
}

const { bias, pAir } = harbourTruth;

const signals = (outside: number, rest: number): readonly Signal[] => [
  { of: "low", quantity: "low-side", tau: 45, noise: 2100, bias: bias.low, begin: rest },
  { of: "high", quantity: "high-side", tau: 70, noise: 7500, bias: bias.high, begin: rest },
  {
    of: "vent",
    quantity: "vent-temperature",
    tau: 95,
    noise: 0.1,
    bias: bias.temperature,
    begin: outside + 6,
  },
  {
    of: "returnTemperature",
    quantity: "return-air-temperature",
    tau: 120,
    noise: 0.1,
    bias: bias.temperature,
    begin: outside + 8,
  },
  {
    of: "returnHumidity",
    quantity: "return-air-humidity",
    tau: 120,
    noise: 0.004,
    bias: bias.humidity,
    begin: 0.42,
  },
  {
    of: "outside",
    quantity: "outside-temperature",
    tau: 1,
    noise: 0.15,
    bias: bias.temperature,
    begin: outside,
  },
  { of: "speed", quantity: "vehicle-speed", tau: 12, noise: 0.15, bias: 0, begin: 0 },
];

/** Units, heads and separators of a logger. */
export interface Dialect {
  readonly separator: string;
  readonly decimal: "." | ",";
  readonly time: "iso" | "day-first";
  readonly timeHead: string;
  readonly heads: Readonly<Partial<Record<ReadingQuantity, readonly [head: string, unit: string]>>>;
}

export const usDialect: Dialect = {
  separator: ",",
  decimal: ".",
  time: "iso",
  timeHead: "time",
  heads: {
    "low-side": ["low psig", "psig"],
    "high-side": ["high psig", "psig"],
    "vent-temperature": ["vent F", "°F"],
    "return-air-temperature": ["return F", "°F"],
    "return-air-humidity": ["return RH %", "%"],
    "outside-temperature": ["outside F", "°F"],
    "vehicle-speed": ["mph", "mph"],
  },
};
export const siDialect: Dialect = {
  separator: ";",
  decimal: ",",
  time: "day-first",
  timeHead: "Time",
  heads: {
    "low-side": ["Low kPa", "kPa(g)"],
    "high-side": ["High kPa", "kPa(g)"],
    "vent-temperature": ["Vent °C", "°C"],
    "return-air-temperature": ["Return °C", "°C"],
    "return-air-humidity": ["Return RH %", "%"],
    "outside-temperature": ["Outside °C", "°C"],
    "vehicle-speed": ["Speed km/h", "km/h"],
  },
};

/** Digits after the point, by unit. */
const digits: Readonly<Record<string, number>> = { psig: 1, "kPa(g)": 0, "°F": 1, "°C": 2, "%": 1 };

/** Seconds between rows, and how long each part lasts. */
const every = 5;
export const phaseSeconds = { idle: 780, road: 660 } as const;

export interface LoggedRun {
  /** Local clock of the logger, ISO without zone. */
  readonly begins: string;
  /** The parts in the order in which they were driven. */
  readonly phases: readonly { readonly where: "idle" | "road"; readonly steady: Steady }[];
  /** Pressure at rest before, Pa absolute. */
  readonly rest: number;
}

/** The file that a logger would have written: one part after the other, each on its way to its end. */
export function loggerFile(run: LoggedRun, dialect: Dialect, random: Random): string {
  const first = run.phases[0];
  if (!first) throw new RangeError("a logged run has a part");
  const all = signals(first.steady.outside, run.rest);
  const state = all.map(({ begin }) => begin);
  const shown = all.map(({ quantity }) => dialect.heads[quantity] ?? ["", ""]);
  const lines = [[dialect.timeHead, ...shown.map(([head]) => head)].join(dialect.separator)];
  let t = 0;
  for (const { where, steady } of run.phases) {
    for (const end = t + phaseSeconds[where]; t < end; t += every) {
      const cells = all.map((signal, i) => {
        const [, unit] = shown[i] ?? ["", ""];
        const value = (state[i] ?? 0) + signal.bias + signal.noise * normal(random);
        return cell(Math.max(signal.of === "speed" ? 0 : -Infinity, value), unit, dialect);
      });
      lines.push([clock(run.begins, t, dialect), ...cells].join(dialect.separator));
      all.forEach(({ of, tau }, i) => {
        const now = state[i] ?? 0;
        state[i] = steady[of] + (now - steady[of]) * Math.exp(-every / tau);
      });
    }
  }
  return `${lines.join("\n")}\n`;
}

const cell = (value: number, unit: string, { decimal }: Dialect): string =>
  fromSI(value, unit, pAir)
    .toFixed(digits[unit] ?? 1)
    .replace(".", decimal);

/** The logger's clock `t` seconds on. */
export function clock(begins: string, t: number, { time }: Pick<Dialect, "time">): string {
  const iso = new Date(Date.parse(`${begins}Z`) + t * 1000).toISOString().slice(0, 19);
  if (time === "iso") return iso;
  const [day = "", hours = ""] = iso.split("T");
  return `${day.split("-").reverse().join(".")} ${hours}`;
}

/** One reading by eye, rounded as the display shows it. */
export const byEye = (value: number, unit: string, step: number): number =>
  Number((Math.round(fromSI(value, unit, pAir) / step) * step).toFixed(3));

/** Grams on a scale of 2 g steps that scatters a little. @param mass kg. */
export const onScale = (mass: number, random: Random): number =>
  Math.round((mass * 1000 + 0.9 * normal(random)) / 2) * 2;
