import type { Issue } from "../../trial/index.ts";
import {
  type Dimension,
  isUnit,
  parseNumber,
  parseQuantity,
  type Quantity,
} from "../../units/index.ts";
import type { Draft } from "../shell/drafts.ts";
import { unitFor } from "../shell/preferences.ts";
import { fieldOfInstant, instantOfField } from "./instant.ts";
import {
  dimensionsOf,
  type FieldSpec,
  initialOf,
  isShown,
  type QuantitySpec,
  usualUnitOf,
} from "./spec.ts";

export interface Built {
  readonly body: Readonly<Record<string, unknown>>;
  readonly issues: readonly Issue[];
}

type Read = { readonly value: unknown } | { readonly issue: string } | undefined;

/** Key under which the unit of a field is remembered on the device. */
export const unitKey = (form: string, spec: FieldSpec): string => `${form} ${spec.name}`;

export const unitOf = (form: string, spec: QuantitySpec, draft: Draft): string => {
  const chosen =
    draft[`${spec.name}.unit`] ?? unitFor(unitKey(form, spec), usualUnitOf(spec, draft));
  const possible = dimensionsOf(spec, draft).some((dimension) => isUnit(chosen, dimension));
  return possible ? chosen : usualUnitOf(spec, draft).si;
};

/** A typed quantity, or what would have been accepted. */
export function readQuantity(
  text: string,
  dimensions: readonly Dimension[],
  unit: string,
): { readonly value: Quantity } | { readonly issue: string } {
  const dimension = dimensions.find((one) => isUnit(unit, one)) ?? dimensions[0];
  if (dimension === undefined) throw new RangeError("a quantity field without a dimension");
  const parsed = parseQuantity(text, dimension, isUnit(unit, dimension) ? unit : undefined);
  return parsed.kind === "quantity" ? { value: parsed.quantity } : { issue: parsed.accepted };
}

function readField(form: string, spec: FieldSpec, draft: Draft): Read {
  const text = (draft[spec.name] ?? initialOf(spec)).trim();
  if (spec.kind === "flag") return { value: text === "yes" };
  if (spec.kind === "lines") {
    return {
      value: text
        .split("\n")
        .map((line) => line.trim())
        .filter((line) => line !== ""),
    };
  }
  if (spec.kind === "when") {
    const instant = instantOfField(text);
    if (text === "") return undefined;
    return instant === undefined ? { issue: "a date and a time" } : { value: instant };
  }
  if (text === "") return spec.optional === true ? undefined : { issue: missing(spec) };
  switch (spec.kind) {
    case "text":
    case "choice":
    case "fluid":
    case "pick":
      return { value: text };
    case "number": {
      const parsed = parseNumber(text);
      return parsed.kind === "number" ? { value: parsed.value } : { issue: parsed.accepted };
    }
    case "quantity":
      return readQuantity(text, dimensionsOf(spec, draft), unitOf(form, spec, draft));
    case "substance":
      return { value: substanceOfKey(text) };
  }
}

const missing = (spec: FieldSpec): string => {
  switch (spec.kind) {
    case "choice":
    case "fluid":
    case "pick":
    case "substance":
      return "one of the choices";
    case "quantity":
    case "number":
      return "a number";
    case "text":
    case "lines":
    case "flag":
    case "when":
      return "a few words";
  }
};

export function substanceOfKey(key: string) {
  const at = key.indexOf(":");
  const rest = key.slice(at + 1);
  return key.startsWith("product:")
    ? { kind: "product" as const, product: rest }
    : { kind: "fluid" as const, fluid: rest };
}

function put(into: Record<string, unknown>, path: readonly string[], value: unknown): void {
  const [head, ...rest] = path;
  if (head === undefined) return;
  if (rest.length === 0) {
    into[head] = value;
    return;
  }
  const inner = (into[head] ?? {}) as Record<string, unknown>;
  into[head] = inner;
  put(inner, rest, value);
}

/** The entry's body as the form stands, with every objection that the form itself can see. */
export function bodyFrom(form: string, specs: readonly FieldSpec[], draft: Draft): Built {
  const body: Record<string, unknown> = {};
  const issues: Issue[] = [];
  for (const spec of specs) {
    if (!isShown(spec, draft) || spec.name.startsWith("_")) continue;
    const read = readField(form, spec, draft);
    if (read === undefined) continue;
    if ("issue" in read) {
      issues.push({ field: spec.name, value: draft[spec.name] ?? "", accepted: read.issue });
    } else {
      put(body, spec.name.split("."), read.value);
    }
  }
  return { body, issues };
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

function flatten(value: unknown, name: string, into: Record<string, string>): void {
  if (Array.isArray(value)) into[name] = value.map(String).join("\n");
  else if (typeof value === "boolean") into[name] = value ? "yes" : "";
  else if (typeof value === "number") into[name] = String(value);
  else if (typeof value === "string") into[name] = value;
  else if (isRecord(value)) flattenRecord(value, name, into);
}

function flattenRecord(value: Record<string, unknown>, name: string, into: Record<string, string>) {
  if (typeof value["value"] === "number" && typeof value["unit"] === "string") {
    into[name] = String(value["value"]);
    into[`${name}.unit`] = value["unit"];
  } else if (value["kind"] === "fluid" && typeof value["fluid"] === "string") {
    into[name] = `fluid:${value["fluid"]}`;
  } else if (value["kind"] === "product" && typeof value["product"] === "string") {
    into[name] = `product:${value["product"]}`;
  } else {
    for (const [key, inner] of Object.entries(value)) {
      flatten(inner, name === "" ? key : `${name}.${key}`, into);
    }
  }
}

/** The form as it would stand if this body had just been typed: for corrections and quick picks. */
export function draftFrom(body: unknown, specs: readonly FieldSpec[] = []): Draft {
  const draft: Record<string, string> = {};
  flatten(body, "", draft);
  for (const spec of specs) {
    const text = draft[spec.name];
    if (spec.kind === "when" && text !== undefined) draft[spec.name] = fieldOfInstant(text);
  }
  return draft;
}
