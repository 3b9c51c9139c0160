import { signal } from "@preact/signals";
import type { ReadingQuantity } from "../../trial/index.ts";

/** What a device remembers about its user. Never part of a trial. */
export interface Preferences {
  /** Name under which this device writes into logs. */
  readonly device: string;
  readonly system: "us" | "si";
  /** Unit last chosen, by quantity. */
  readonly units: Readonly<Record<string, string>>;
  /** Instrument last chosen, by trial and quantity. */
  readonly instruments: Readonly<Record<string, string>>;
  /** Column meanings once confirmed, by the headings they were confirmed for. */
  readonly mappings: Readonly<Record<string, RememberedMapping>>;
  /** Where the user was last, by trial. */
  readonly places: Readonly<Record<string, readonly string[]>>;
  /** Practice trials, and whether their guide is shown. */
  readonly guided: Readonly<Record<string, boolean>>;
}

export interface RememberedMapping {
  readonly decimal: "." | ",";
  readonly timeForm: "iso" | "day-first" | "month-first" | "elapsed";
  readonly timeColumn: string;
  readonly timeUnit?: string;
  readonly columns: readonly {
    readonly column: string;
    readonly quantity: ReadingQuantity;
    readonly unit: string;
  }[];
}

const usualHere = (): "us" | "si" => (/-(US|LR|MM)$/i.test(navigator.language) ? "us" : "si");

/** A page over plain http, as in a shop's own network, has no `crypto.randomUUID`. */
function fewLetters(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(2));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

const freshPreferences = (): Preferences => ({
  device: `${matchMedia("(pointer: coarse)").matches ? "phone" : "computer"} ${fewLetters()}`,
  system: usualHere(),
  units: {},
  instruments: {},
  mappings: {},
  places: {},
  guided: {},
});

/** Before the device's store is open. */
const none: Preferences = {
  device: "unnamed",
  system: "si",
  units: {},
  instruments: {},
  mappings: {},
  places: {},
  guided: {},
};
export const preferences = signal<Preferences>(none);

/** Called with every change; set once the store is open. */
let keep: (value: Preferences) => void = () => undefined;

export function startPreferences(stored: unknown, keeper: (value: Preferences) => void): void {
  preferences.value = {
    ...freshPreferences(),
    ...(typeof stored === "object" && stored !== null ? (stored as Partial<Preferences>) : {}),
  };
  keep = keeper;
  keep(preferences.value);
}

export function prefer(change: Partial<Preferences>): void {
  preferences.value = { ...preferences.value, ...change };
  keep(preferences.value);
}

/** The unit to offer: the one last chosen for this quantity, else the usual one of the system. */
export const unitFor = (key: string, usual: { readonly us: string; readonly si: string }): string =>
  preferences.value.units[key] ?? usual[preferences.value.system];

export function rememberUnit(key: string, unit: string): void {
  if (preferences.value.units[key] === unit) return;
  prefer({ units: { ...preferences.value.units, [key]: unit } });
}

export const instrumentFor = (trial: string, quantity: string): string | undefined =>
  preferences.value.instruments[`${trial} ${quantity}`];

export function rememberInstrument(trial: string, quantity: string, instrument: string): void {
  prefer({
    instruments: { ...preferences.value.instruments, [`${trial} ${quantity}`]: instrument },
  });
}
