import type { PiecewiseChebyshev } from "../numerics/index.ts";
import type { CriticalPoint } from "./critical-point.ts";
import { numberAt, numbersAt, recordAt, recordsAt, textAt, type Place } from "./json-place.ts";
import type { BuiltSaturation, SaturationDifferences } from "./saturation-build.ts";

/** Content of data/saturation/<id>.json. */
export interface SaturationFile {
  readonly fluid: string;
  readonly critical: CriticalPoint;
  readonly states: PiecewiseChebyshev;
  readonly temperature: PiecewiseChebyshev;
}

const schema = "saturation-expansions/1";

/**
 * Reads a file of saturation expansions.
 *
 * @throws  Error naming the path: the file is part of this package.
 */
export function parseSaturationFile(value: unknown): SaturationFile {
  const root = recordAt({ path: "", value });
  const found = textAt(root("schema"));
  if (found !== schema) throw new Error(`schema: found ${found}, accepted ${schema}`);
  const critical = recordAt(root("critical"));
  const states = recordAt(root("states"));
  const temperature = recordAt(root("temperature"));
  return {
    fluid: textAt(root("fluid")),
    critical: {
      T: numberAt(critical("T")),
      p: numberAt(critical("p")),
      rho: numberAt(critical("rho")),
    },
    states: parsePiecewise(states("x"), [states("lnP"), states("rhoL"), states("lnRhoV")]),
    temperature: parsePiecewise(temperature("lnP"), [temperature("T")]),
  };
}

/**
 * Text of a file of saturation expansions.
 *
 * Coefficients are written to the last digit that matters beside the largest one of their
 * expansion, which halves the file.
 *
 * @param script  Name of the script that builds it, for the reader of the file.
 */
export function saturationFileText(fluid: string, built: BuiltSaturation, script: string): string {
  const { critical, states, temperature } = built;
  const lines = [
    `"schema": "${schema}"`,
    `"fluid": "${fluid}"`,
    `"made": "${script}, from the equation of state in the fluid file; Chebyshev coefficients, one row an interval"`,
    `"units": "T in K, p in Pa, rho in mol/m3; x = sqrt(1 - T/Tc) with the critical point given here"`,
    `"differencesTo0.999Tc": ${differencesText(built.differences)}`,
    `"differencesNearer": ${differencesText(built.nearCritical)}`,
    `"critical": ${JSON.stringify(critical)}`,
    `"states": {\n"x": ${JSON.stringify([...states.breaks])},\n"lnP": ${rows(states, 0)},\n"rhoL": ${rows(states, 1)},\n"lnRhoV": ${rows(states, 2)}}`,
    `"temperature": {\n"lnP": ${JSON.stringify([...temperature.breaks])},\n"T": ${rows(temperature, 0)}}`,
  ];
  return `{\n${lines.join(",\n")}\n}\n`;
}

function differencesText(differences: SaturationDifferences): string {
  const rounded = Object.entries(differences).map(([key, value]: [string, number]) => [
    key,
    Number(value.toPrecision(2)),
  ]);
  return JSON.stringify(Object.fromEntries(rounded));
}

function rows({ tables, count }: PiecewiseChebyshev, which: number): string {
  const table = tables[which];
  const texts: string[] = [];
  for (let start = 0; start < table.length; start += count) {
    const row = [...table.subarray(start, start + count)];
    const decimals = 17 - Math.ceil(Math.log10(Math.max(...row.map(Math.abs))));
    texts.push(JSON.stringify(row.map((value) => Number(value.toFixed(decimals)))));
  }
  return `[\n${texts.join(",\n")}]`;
}

function parsePiecewise(breaksPlace: Place, tablePlaces: readonly Place[]): PiecewiseChebyshev {
  const breaks = Float64Array.from(numbersAt(breaksPlace));
  const tables = tablePlaces.map((place) => recordsAt(place).map(numbersAt));
  const count = tables[0][0].length;
  for (const [k, table] of tables.entries()) {
    if (table.length !== breaks.length - 1 || table.some((row) => row.length !== count)) {
      throw new Error(`${tablePlaces[k].path}: accepted are ${breaks.length - 1} rows of ${count}`);
    }
  }
  return { breaks, count, tables: tables.map((table) => Float64Array.from(table.flat())) };
}
