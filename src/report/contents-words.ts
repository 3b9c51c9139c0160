import { blendNames, type IdentifyResult } from "../calculations/index.ts";
import type { ContentsEvidence } from "../trial/index.ts";
import type { UnitChoice } from "./choose-unit.ts";
import { chanceText, type FamilyShare, type PartShare } from "./pictures/contents-chart.tsx";

type Evidence = ContentsEvidence["items"][number]["evidence"];

/** One piece of evidence as a sentence's beginning, in the reader's units. */
export function evidenceWords(evidence: Evidence, units: UnitChoice): string {
  const temperature = (T: number, u: number): string =>
    units.quantity("vessel-temperature").pair({ value: T, u });
  switch (evidence.kind) {
    case "pressure": {
      const { p, u, T, uT, vessel } = evidence;
      const where = vessel === "can" ? "Pressure of the can" : "Pressure of the vehicle at rest";
      const reading = units.quantity("vessel-pressure").pair({ value: p, u });
      return `${where}, ${reading} at ${temperature(T, uT)}`;
    }
    case "boiling":
      return `Boiling at ${temperature(evidence.T, evidence.uT)} under outside pressure`;
    case "fill": {
      const { mass, uMass, volume, uVolume, vessel, full } = evidence;
      const held = units.thing("small-mass").pair({ value: mass, u: uMass });
      const space = units.quantity("can-volume").pair({ value: volume, u: uVolume });
      return vessel === "vehicle"
        ? `Mass charged, ${held} in ${space}`
        : `${full ? "Full can" : "Can"}, ${held} in ${space}`;
    }
    case "liquid-density":
      return `Density of the liquid, ${evidence.rho.toFixed(0)} kg/m³`;
    case "identifier":
      return `Identifier: ${evidence.parts.map(({ substance, fraction }) => `${substance} ${(100 * fraction).toFixed(0)} %`).join(", ")}`;
    case "detector":
      return `${evidence.detects === "halogen" ? "Halogen detector" : "Combustible-gas detector"}: ${evidence.responded ? "responded" : "did not respond"}`;
    case "running": {
      const { charge, uCharge, runs, baseline } = evidence;
      const held = units.thing("small-mass").pair({ value: charge, u: uCharge });
      const ran = `${counted(runs.length, "run")} of the vehicle on ${held}`;
      const by =
        baseline.length > 0
          ? `calibrated by ${baseline.length} on its label refrigerant`
          : "not calibrated";
      return `${ran}, through its model, ${by}`;
    }
    case "label":
      return `The label says ${evidence.declares}`;
  }
}

const counted = (n: number, what: string): string => `${n} ${what}${n === 1 ? "" : "s"}`;

/** Families below are told together. */
const SHOWN = 0.01;
const MOST = 7;

const capital = (text: string): string => text.replace(/^./u, (letter) => letter.toUpperCase());

/** Bars of the picture: the probable ones by name, the rest in one. */
export function familyShares({ families }: Pick<IdentifyResult, "families">): FamilyShare[] {
  const named = families.filter(({ probability }) => probability >= SHOWN).slice(0, MOST);
  const rest = 1 - named.reduce((sum, { probability }) => sum + probability, 0);
  return [
    ...named.map(({ id, title, probability }) => ({
      name: capital(withParts(id, title)),
      probability,
    })),
    ...(rest > 0.0005 ? [{ name: "All others together", probability: rest }] : []),
  ];
}

const partsOf = (id: string) => blendNames.find(({ name }) => name === id)?.parts;

/** A blend's name with what it is made of: "R441A (R170/R290/R600a/R600)". */
function withParts(id: string, title: string): string {
  const parts = partsOf(id);
  return parts ? `${title} (${parts.map(({ fluid }) => fluid).join("/")})` : title;
}

/** What the named blends of an answer are made of, by mass: "R436A is R290 56 %, R600a 44 %". */
export function blendsSpelled({ families, indistinguishable }: IdentifyResult): string[] {
  const named = families.filter(
    ({ id, probability }) => probability >= SHOWN || indistinguishable.families.includes(id),
  );
  return named.flatMap(({ id, title }) => {
    const parts = partsOf(id);
    if (!parts) return [];
    const shares = parts.map(
      ({ fluid, fraction }) => `${fluid} ${Number((100 * fraction).toPrecision(3))} %`,
    );
    return [`${title} is ${shares.join(", ")}`];
  });
}

/** Parts whose interval ends below this are not drawn. */
const DRAWN = 0.02;

/** Parts by mass whatever the family; empty where it is one pure fluid beyond doubt. */
export function overallParts({ overall }: Pick<IdentifyResult, "overall">): PartShare[] {
  const parts = overall
    .filter(({ to }) => to >= DRAWN)
    .slice(0, MOST)
    .map(({ fluid, mean, from, to }) => ({ name: fluid, mean, from, to }));
  return parts.length > 1 ? parts : [];
}

/** What runs of a vehicle did to the answer, and that no name rests on them. */
export const runsWords = ({ says, without }: NonNullable<IdentifyResult["runs"]>): string =>
  `${says} Without them ${without.title} leads with ${chanceText(without.probability)}.`;

/** Title of the picture of parts. */
export const PARTS_TITLE = "What it is made of, by mass, whichever it is: 95 % intervals";

/** The picture's title: its finding. */
export function contentsFinding({ families, verdict }: IdentifyResult): string {
  const [first, second] = families;
  if (verdict === "none-explains" || !first) return "Nothing known here explains the readings";
  if (verdict === "named") return `The readings say ${first.title}`;
  return `Undecided: ${first.title}${second ? ` or ${second.title}` : ""}`;
}
