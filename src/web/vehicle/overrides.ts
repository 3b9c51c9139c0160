import type { ParameterView } from "../../calculations/index.ts";
import { parseNumber } from "../../units/index.ts";
import type { FieldDraft } from "../fields/field-draft.ts";
import { parameterUnit } from "./parameter-units.ts";

/** The user's own value of a parameter, as it is typed. */
const overrideName = (parameter: string): string => `own.${parameter}`;

export const overrideField = (draft: FieldDraft, parameter: string): string =>
  draft.field(overrideName(parameter));

export function changeOverride(draft: FieldDraft, parameter: string, text: string): void {
  draft.change({ [overrideName(parameter)]: text });
}

/** A number alone is in the unit beside the field, a text with a unit goes as it is. */
function overrideValue(parameter: ParameterView, text: string): number | string | undefined {
  if (text.trim() === "") return undefined;
  const parsed = parseNumber(text);
  if (parsed.kind !== "number") return text.trim();
  const { suffix } = parameterUnit(parameter);
  return suffix === "" ? parsed.value : `${text.trim()} ${suffix}`;
}

/** All of them, as the calculation takes them. */
export const overridesOf = (
  draft: FieldDraft,
  parameters: readonly ParameterView[],
): Readonly<Record<string, number | string>> =>
  Object.fromEntries(
    parameters.flatMap((parameter) => {
      const value = overrideValue(parameter, overrideField(draft, parameter.name));
      return value === undefined ? [] : [[parameter.name, value]];
    }),
  );

/** Values in SI as the fields would hold them. */
export const typedOverrides = (
  values: Readonly<Record<string, number>>,
  parameters: readonly ParameterView[],
): Readonly<Record<string, string>> =>
  Object.fromEntries(
    parameters.flatMap((parameter) => {
      const value = values[parameter.name];
      if (value === undefined) return [];
      const shown = Number(parameterUnit(parameter).value(value).toPrecision(6));
      return [[overrideName(parameter.name), String(shown)]];
    }),
  );

/** All of them in SI, for the log; undefined when one is no plain number in the unit beside its field. */
export function siOverrides(
  draft: FieldDraft,
  parameters: readonly ParameterView[],
): Readonly<Record<string, number>> | undefined {
  const values: [string, number][] = [];
  for (const parameter of parameters) {
    const text = overrideField(draft, parameter.name);
    if (text.trim() === "") continue;
    const parsed = parseNumber(text);
    if (parsed.kind !== "number") return undefined;
    values.push([parameter.name, parameterUnit(parameter).si(parsed.value)]);
  }
  return Object.fromEntries(values);
}
