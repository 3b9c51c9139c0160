import type { ParameterView } from "../../calculations/index.ts";
import { fromSI, toSI, unitById } from "../../units/index.ts";

/** How a parameter is shown and typed. */
export interface ParameterUnit {
  readonly label: string;
  /** SI to the shown unit. */
  readonly value: (si: number) => number;
  /** The shown unit to SI. */
  readonly si: (shown: number) => number;
  /** Behind a typed number, as the calculation takes it; empty for SI. */
  readonly suffix: string;
}

/** Units with a handier size than SI, by the unit of the parameter. */
const handier: Readonly<Record<string, { readonly unit: string; readonly behind?: string }>> = {
  m3: { unit: "mL" },
  "m3/rev": { unit: "mL", behind: " per turn" },
  "Pa gauge": { unit: "kPa", behind: " gauge" },
  Pa: { unit: "kPa" },
};

export function parameterUnit({ name, unit }: Pick<ParameterView, "name" | "unit">): ParameterUnit {
  const shown = name === "finTemperature" ? { unit: "°C" } : handier[unit];
  if (!shown) {
    const label = unit === "1" ? "" : unit.replace("m3", "m³").replace("m2", "m²");
    return { label, value: (si) => si, si: (value) => value, suffix: "" };
  }
  const behind = "behind" in shown ? (shown.behind ?? "") : "";
  const label = `${unitById(shown.unit).label.replace(" abs", "")}${behind}`;
  const { unit: id } = shown;
  return {
    label,
    value: (si) => fromSI(si, id),
    si: (value) => toSI({ value, unit: id }),
    suffix: id,
  };
}
