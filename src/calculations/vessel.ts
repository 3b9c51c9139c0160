import { z } from "zod";
import { type Bulk, bulkAtTRho, materialOf, pressureDoubt } from "../service/index.ts";
import { airAssumptions } from "./air-fields.ts";
import { estimateSentences, noBulk, pairSources } from "./blend-answer.ts";
import { phaseSchema, phaseView } from "./blend-state.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { substanceFields, substanceOf, substanceSources } from "./substance-field.ts";
import { FULLEST, vesselFields } from "./vessel-fields.ts";

/** What a vessel shows and holds. */
export const contentsFields = {
  p: z.number().describe("Pressure, absolute, Pa"),
  gauge: z.number().describe("What a gauge shows above the local air, Pa"),
  liquidFraction: z
    .number()
    .describe("Liquid, fraction of the mass; beyond the critical point no more than dense or thin"),
  liquidVolumeFraction: z.number().describe("Liquid, fraction of the volume"),
};
const output = z.strictObject({
  ...contentsFields,
  rho: z.number().describe("Mass per volume, kg/m3"),
  phases: z.array(phaseSchema).describe("Liquid first"),
});

/** The numbers of {@link contentsFields}. */
export function contentsView({ p, phases }: Bulk, localAir: number) {
  const liquid = phases.find(({ kind }) => kind === "liquid");
  return {
    p,
    gauge: p - localAir,
    liquidFraction: liquid?.share ?? 0,
    liquidVolumeFraction: liquid?.volumeShare ?? 0,
  };
}

export const vesselCalculation = defineCalculation({
  name: "vessel",
  title: "What a gauge shows on a closed vessel that holds a known mass",
  fields: { ...substanceFields, ...vesselFields },
  output,
  cautions: [cautions.ports, cautions.equation, cautions.charge],
  sources: ["Equilibrium at the vessel's temperature, volume and mass: least Helmholtz energy"],
  run({ fluid, blend, volume, mass, T }, air) {
    const substance = substanceOf({ fluid, blend });
    if (substance.kind === "invalid") return substance;
    const material = materialOf(substance.moles);
    const rho = mass / volume;
    const bulk = bulkAtTRho(material, T, rho);
    if (bulk.kind === "failed") return noBulk(substance.name, bulk);
    const contents = contentsView(bulk, air.p);
    const u = pressureDoubt(material, bulk.p, (other) => bulkAtTRho(other, T, rho));
    return {
      kind: "answer",
      result: { ...contents, rho, phases: bulk.phases.map(phaseView) },
      uncertainty: { p: u },
      cautions: contents.liquidVolumeFraction > FULLEST ? [cautions.full] : [],
      sources: [...substanceSources(substance), ...pairSources(material)],
      assumptions: [...estimateSentences(material), ...airAssumptions(air)],
    };
  },
});
