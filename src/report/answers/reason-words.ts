import type { Answer, HazardFinding, Reason, ReasonFact } from "../../trial/index.ts";
import type { UnitChoice } from "../choose-unit.ts";
import { fairInterval, fairSentence, fairShown } from "../fair-words.ts";
import { conditionNames } from "../names.ts";
import { standsIn, takenSentence } from "../page/hazard-words.ts";

/** What sentences need beside the reason: names and units. */
export interface AnswerWords {
  readonly label: string;
  readonly units: UnitChoice;
}

/** Where the evidence of a reason stands in a report, by the id of its section. */
export type AnswerPlace = "ledger" | "contents" | "claims" | "equal" | "hazards" | "drift";

const places: Readonly<Record<ReasonFact["kind"], AnswerPlace>> = {
  "net-mass": "ledger",
  identity: "contents",
  claims: "claims",
  vent: "equal",
  "no-comparison": "equal",
  flame: "hazards",
  poison: "contents",
  contaminated: "contents",
  drift: "drift",
  "no-drift": "drift",
  refilled: "ledger",
  closures: "ledger",
};
export const placeOf = ({ fact }: Reason): AnswerPlace => places[fact.kind];

type FactOf<K extends ReasonFact["kind"]> = Extract<ReasonFact, { kind: K }>;

/** One reason as a plain sentence with its number. */
export function reasonSentence({ fact }: Reason, words: AnswerWords): string {
  const { units, label } = words;
  switch (fact.kind) {
    case "net-mass":
      return netMass(fact);
    case "identity":
      return identity(fact);
    case "claims":
      return claims(fact);
    case "vent":
      return fairSentence(fact.row, label, units);
    case "no-comparison":
      return `Nothing can be said in equal conditions yet. ${fact.why}`;
    case "flame":
      return flame(fact, words);
    case "poison":
      return poison(fact);
    case "contaminated":
      return `Its can says ${fact.declared}; what is inside is ${fact.found}. What is mixed without anybody’s knowledge spoils a machine, a cylinder and the next vehicle.`;
    case "drift":
      return drift(fact, words);
    case "no-drift":
      return `${label} was not run again after the products, or its drift cannot be told in equal conditions.`;
    case "refilled": {
      const shown = units.thing("small-mass");
      return `By the ledger ${shown.pair(fact.mass)} of the ${shown.text(fact.target)} on its label are in it.`;
    }
    case "closures":
      return closures(fact);
  }
}

function netMass({ claim: { verdict, because, evidence, statement } }: FactOf<"net-mass">): string {
  const [weighed] = evidence;
  if (!weighed) return because;
  const said = statement.replace(/^A can holds/u, "The label’s");
  return verdict === "supported"
    ? `${weighed.text} ${said.replace(/\.$/u, "")} lie within that.`
    : `${because} ${weighed.text}${verdict === "contradicted" ? ` ${said.replace(/\.$/u, "")} do not fit.` : ""}`;
}

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
const chance = (p: number): string => (p > 0.995 ? "more than 99 %" : percent(p));

function identity({ says, declared, found, parts, probability }: FactOf<"identity">): string {
  if (says === undefined) {
    return "Nothing was measured that says what is inside.";
  }
  if (found === undefined) return says;
  const made = parts
    .filter(({ to }) => to >= 0.02)
    .map(({ fluid, from, to }) => `${fluid} ${(100 * from).toFixed(0)} to ${percent(to)}`);
  const mixture = made.length > 0 ? ` (by mass, 95\u00a0%: ${made.join(", ")})` : "";
  if (probability === undefined) {
    return `By mass it is ${found}, whichever name it goes by; its can names no shares that this could be held against.`;
  }
  const sure = `probability ${chance(probability)}`;
  if (declared === undefined) {
    return `It is ${found}${mixture}, ${sure}; its can names no refrigerant in shares that this could be held against.`;
  }
  return found === declared
    ? `It is ${found}, as its can says; ${sure}.`
    : `Its can says ${declared}; the readings say ${found}${mixture}, ${sure}.`;
}

function claims({ supported, contradicted, undecided }: FactOf<"claims">): string {
  const all = supported + contradicted.length + undecided;
  const tally = [
    [contradicted.length, "contradicted"],
    [supported, "supported"],
    [undecided, "undecided"],
  ] as const;
  const said = tally
    .filter(([count]) => count > 0)
    .map(([count, word]) => `${count} ${word}`)
    .join(", ");
  const first = contradicted
    .slice(0, 3)
    .map(({ text, because }) => `“${text}” ${because}`)
    .join(" ");
  return `Of ${all} ${all === 1 ? "statement" : "statements"} on its label: ${said}.${first === "" ? "" : ` Contradicted: ${first}`}`;
}

const times = (over: number): string =>
  over >= 1 ? `${over.toFixed(1)} times` : `${(100 * over).toFixed(0)} % of`;

/** Stirred and at the floor, and the mass that would not matter. */
function concentration({ scenarios, mass }: HazardFinding, { units }: AnswerWords): string {
  const [stirred, layer] = scenarios;
  const over = stirred?.zone.overLfl;
  if (mass === undefined || !stirred || over === undefined) return "";
  const shown = units.thing("small-mass");
  const floor =
    layer?.zone.overLfl === undefined
      ? ""
      : `, lying at the floor it would be ${times(layer.zone.overLfl)} that`;
  const safe =
    stirred.zone.safeMass === undefined
      ? ""
      : ` At most ${shown.text(stirred.zone.safeMass)} would stay below a quarter of it.`;
  return ` Leaked into the sealed cabin and stirred, ${shown.text(mass)} would be ${times(over)} the concentration from which it burns${floor}.${safe}`;
}

function flame({ hazard, burns }: FactOf<"flame">, words: AnswerWords): string {
  const { label } = words;
  const stands = takenSentence(hazard);
  if (burns === true) {
    const taken = standsIn(hazard) && stands !== undefined ? ` ${stands}` : "";
    return `It burns, in a vehicle made for ${label}.${taken}${concentration(hazard, words)}`;
  }
  if (burns === undefined) {
    return `Whether it burns is not settled.${stands === undefined ? "" : ` ${stands}`}${concentration(hazard, words)}`;
  }
  const poisons = hazard.poisonInFlame
    ? ` In a flame or on glowing metal it gives hydrogen fluoride and other poisons${hazard.name === label ? "" : `, as fluorinated refrigerants do`}.`
    : "";
  return `It does not burn in open air.${poisons}`;
}

function poison({ probability }: FactOf<"poison">): string {
  if (probability === undefined) {
    return "What is inside is not settled, so nothing rules a poison out.";
  }
  return probability <= 0.005
    ? "Nothing that it may still be is classed as poisonous."
    : `The chance that what is inside poisons or attacks metal is ${chance(probability)}.`;
}

function drift({ row, margin }: FactOf<"drift">, { label, units }: AnswerWords): string {
  const shown = fairShown(row, units);
  const interval = fairInterval({ ...row, equalConditions: row.drift }, shown);
  return `With ${label} again after the products, ${conditionNames[row.condition]}, vent air came back to ${shown.pair(row.drift)} of what it was (95\u00a0%: ${interval}); the margin is ${shown.text(margin).replace(/^\+/u, "")}.`;
}

function closures({ closures: all, open }: FactOf<"closures">): string {
  return open.length === 0
    ? `All ${all} checks of mass on the vehicle close within two standard uncertainties.`
    : `${open.length} of ${all} checks of mass on the vehicle ${open.length === 1 ? "does" : "do"} not close. ${open.map(({ sentence }) => sentence).join(" ")}`;
}

const COMPARED =
  "The weather of each run was read or assumed; what the model takes for granted is listed with the comparison.";

/** How each question is decided, and what it takes for granted. */
export function methodOf({ question }: Answer): {
  readonly method: string;
  readonly assumptions: readonly string[];
} {
  switch (question) {
    case "holds":
      return {
        method:
          "What was weighed out of a can against the mass on its label, two standard uncertainties either way; what is inside by its pressures, mass, volume and testers together, settled from 95 % on; each sentence of the label as a statement that something can speak for or against. One “no” decides; “yes” takes all.",
        assumptions: [
          "The can that was weighed and examined stands for its kind: another can may differ.",
          "The label counts as a prior for what is inside, never as evidence.",
        ],
      };
    case "cools":
      return {
        method:
          "The vent air of its runs less what the label refrigerant would have given in the same weather, by a model fitted to this vehicle on the label refrigerant. “Yes” where the whole 95 % interval is no warmer than the margin, “no” where it lies beyond it.",
        assumptions: [COMPARED],
      };
    case "safe":
      return {
        method:
          "What is inside, as it was identified, against published limits of flame and poison; the whole charge into this cabin at once, by mass and volume. Nothing was released. “Yes” says no more than the label refrigerant’s own hazards.",
        assumptions: [
          "Cabin sealed; air stirred, or a layer of 0.3 m under a cabin of 1.1 m (common practice, no source).",
          "Pressures, oil and seals of another refrigerant are no part of this answer. Local codes and the vehicle’s maker decide what may be in a vehicle.",
        ],
      };
    case "restored":
      return {
        method:
          "The label refrigerant after the products less before them, carried to equal conditions, against the same margin; the charge in the ledger against the label’s within what charging is held to; and the checks of mass on the vehicle.",
        assumptions: [COMPARED],
      };
  }
}
