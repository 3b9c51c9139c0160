import { blendNames, fluidNames } from "../../calculations/index.ts";
import { fluidField } from "./fluid-draft.ts";

/** A fluid or blend in question, as calculations take it. */
export interface Chosen {
  readonly name: string;
  readonly input: Readonly<Record<string, unknown>>;
  readonly pure: boolean;
}

/** Stands in the list of names for a composition typed by hand. */
export const OWN = "own";
/** The mixture model is made for no more. */
export const MOST_PARTS = 8;

export interface TypedPart {
  readonly fluid: string;
  /** In per cent, as typed. */
  readonly share: string;
}

export const basisOf = (): "mass" | "mole" => (fluidField("basis") === "mole" ? "mole" : "mass");

/** The parts as they stand in the fields, unusable ones included. */
export function typedParts(): readonly TypedPart[] {
  const count = Math.min(MOST_PARTS, Math.max(2, Number(fluidField("parts", "2")) || 2));
  return Array.from({ length: count }, (_, i) => ({
    fluid: fluidField(`part.${i}.fluid`),
    share: fluidField(`part.${i}.share`),
  }));
}

export const chosenByName = (name: string): Chosen => {
  const pure = fluidNames.includes(name);
  return { name, pure, input: pure ? { fluid: name } : { blend: name } };
};

/** What the fields name; undefined while a typed composition has an empty field. */
export function chosen(initial: string): Chosen | undefined {
  const name = fluidField("substance", initial);
  if (name !== OWN) return chosenByName(name);
  const parts = typedParts();
  if (parts.some(({ fluid, share }) => fluid === "" || share.trim() === "")) return undefined;
  const basis = basisOf();
  return {
    name: `${parts.map(({ fluid }) => fluid).join("/")} (${parts.map(({ share }) => share.trim()).join("/")} % by ${basis})`,
    pure: false,
    input: {
      blend: parts.map(({ fluid, share }) => ({ fluid, [basis]: `${share.trim()} %` })),
    },
  };
}

/** Parts of a named blend, as a hint: "R290 54.8 %, R600 40.6 %, …". */
export function partsText(name: string): string | undefined {
  const blend = blendNames.find((one) => one.name === name);
  return blend?.parts
    .map(({ fluid, fraction }) => `${fluid} ${Number((100 * fraction).toPrecision(3))} %`)
    .join(", ");
}
