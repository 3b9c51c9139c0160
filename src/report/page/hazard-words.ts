import { type HazardFinding, treatmentSentence } from "../../trial/index.ts";
import type { UnitChoice } from "../choose-unit.ts";

export const scenarioNames: Readonly<Record<HazardFinding["scenarios"][number]["name"], string>> = {
  "sealed-stirred": "Sealed, air stirred",
  "sealed-layer": "Sealed, layer at the floor",
  "fan-stirred": "Fan on fresh air, stirred",
};

const MISSING: Readonly<Record<NonNullable<HazardFinding["missing"]>, string>> = {
  "cabin-volume": "The cabin’s volume is not known, so no concentration can be told.",
  mass: "The mass of a charge is not known, so no concentration can be told.",
  composition:
    "What it is made of is not known as something computed here, so no concentration can be told.",
};

const MASS_FROM: Readonly<Record<NonNullable<HazardFinding["massFrom"]>, string>> = {
  charged: "as charged in this trial",
  "label-mass": "the mass on its label",
  "label-charge": "the vehicle’s label charge",
};

/** Why a content is handled as it is, and what stands for it in the figures; nothing where it was identified for good. */
export function takenSentence(finding: HazardFinding): string | undefined {
  const { treatment } = finding;
  const why = treatment && treatmentSentence(treatment);
  const stands = standsIn(finding) ? standInSentence(finding) : undefined;
  return why === undefined && stands === undefined
    ? undefined
    : [why, stands].filter((one) => one !== undefined).join(" ");
}

/** What stands for a content that nothing proves. */
export const standInSentence = ({ takenAs, burns }: HazardFinding): string =>
  `In the figures ${takenAs?.name ?? "another fluid"} stands in for it: nothing that it may still be ${burns === "does-not-burn" ? "has a lower limit for lungs" : "burns at a lower concentration"}.`;

/** Another fluid stands for a content that is not proven: what is worked out could be, and need not. */
export const standsIn = ({ takenAs }: Pick<HazardFinding, "takenAs">): boolean =>
  takenAs?.because === "worst";

/** What the whole charge would do, in a few sentences. */
export function hazardSentence(finding: HazardFinding, units: UnitChoice): string {
  const { missing, mass, massFrom, scenarios, burns } = finding;
  if (missing !== undefined || mass === undefined) return MISSING[missing ?? "mass"];
  const shown = units.thing("small-mass");
  const amount = `${shown.text(mass)}${massFrom === undefined ? "" : `, ${MASS_FROM[massFrom]}`}`;
  const co2 = finding.co2
    .map(({ edition, mass: kg }) =>
      kg === undefined ? `${edition} has no figure` : `${edition} ${Number(kg.toPrecision(3))} kg`,
    )
    .join(", ");
  const poison = finding.poisonInFlame
    ? " In a flame or on glowing metal it gives hydrogen fluoride and other poisons."
    : "";
  const warming = ` It warms as much as carbon dioxide of: ${co2}.`;
  const even = scenarios[0]?.zone;
  if (even?.overLfl === undefined) {
    const flame =
      burns === "does-not-burn"
        ? "It does not burn in open air."
        : "No limit is known for this composition: treat it as burning.";
    return `${amount}: ${flame}${poison}${warming}`;
  }
  const safe =
    even.safeMass === undefined
      ? ""
      : ` ${shown.text(even.safeMass)} is the most that would stay below a quarter of that.`;
  return `${amount}: mixed evenly into the sealed cabin it would stand at ${(100 * even.overLfl).toFixed(0)} % of the concentration from which it burns.${safe}${poison}${warming}`;
}
