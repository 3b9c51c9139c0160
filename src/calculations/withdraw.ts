import { z } from "zod";
import {
  bulkAtTRho,
  materialOf,
  type Part,
  pressureDoubt,
  toMoles,
  withdraw,
  type WithdrawalPoint,
} from "../service/index.ts";
import {
  compositionSchema,
  compositionView,
  estimateSentences,
  noBulk,
  pairSources,
} from "./blend-answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { choice, count, optional, quantity } from "./field.ts";
import { substanceFields, substanceOf, substanceSources } from "./substance-field.ts";
import { vesselFields } from "./vessel-fields.ts";

const point = z.strictObject({
  withdrawn: z.number().describe("Mass that has come out, kg"),
  left: z.number().describe("Mass that is left, kg"),
  p: z.number().describe("Pressure, absolute, Pa"),
  liquidFraction: z.number().describe("Liquid, fraction of the mass left"),
  liquidVolumeFraction: z.number().describe("Liquid, fraction of the volume"),
  drawn: z.enum(["liquid", "vapour"]).describe("The phase that leaves now"),
  leaving: compositionSchema.describe("What leaves now"),
  remaining: compositionSchema.describe("What is in the vessel"),
  collected: compositionSchema.optional().describe("All that has come out, mixed"),
});
const output = z.strictObject({
  from: z.enum(["top", "bottom"]),
  points: z.array(point),
  ended: z.string().optional().describe("Why the series ends before the mass asked for"),
});

const byMass = (mass: readonly Part[]) => compositionView(mass, toMoles(whole(mass)));

/** Fractions whose sum is 1 but for the rounding of a solver. */
function whole(parts: readonly Part[]): readonly Part[] {
  const sum = parts.reduce((total, { fraction }) => total + fraction, 0);
  return parts.map(({ fluid, fraction }) => ({ fluid, fraction: fraction / sum }));
}

const pointView = ({ leaving, remaining, collected, ...figures }: WithdrawalPoint) => ({
  ...figures,
  leaving: byMass(leaving),
  remaining: byMass(remaining),
  ...(collected && { collected: byMass(collected) }),
});

const STEPS = 20;
const UNTIL = 0.95;

export const withdrawCalculation = defineCalculation({
  name: "withdraw",
  title: "What comes out and what is left as a vessel is emptied as vapour or as liquid",
  fields: {
    ...substanceFields,
    ...vesselFields,
    from: choice("Vapour leaves at the top, liquid at the bottom", ["top", "bottom"]),
    steps: optional(count(`Points of the series; ${STEPS} if left out`, { from: 1, to: 100 })),
    until: optional(
      quantity("ratio", `Fraction of the mass to take out; ${UNTIL} if left out`, {
        from: 0.01,
        to: 0.99,
      }),
    ),
  },
  output,
  cautions: [cautions.ports, cautions.liquidCharge, cautions.rules],
  sources: [
    "Differential withdrawal at constant temperature, phases in equilibrium: Rayleigh, Phil. Mag. 4 (1902) 521",
  ],
  run({ fluid, blend, volume, mass, T, from, steps = STEPS, until = UNTIL }) {
    const substance = substanceOf({ fluid, blend });
    if (substance.kind === "invalid") return substance;
    const { points, failure } = withdraw({
      moles: substance.moles,
      ...{ T, volume, mass, from, until, steps },
    });
    const [first] = points;
    if (!first) {
      if (!failure) throw new RangeError("a series without points has a reason");
      return noBulk(substance.name, failure);
    }
    const material = materialOf(substance.moles);
    const again = (rule: typeof material) => bulkAtTRho(rule, T, mass / volume);
    return {
      kind: "answer",
      result: {
        from,
        points: points.map(pointView),
        ...(failure && { ended: noBulk(substance.name, failure).message }),
      },
      uncertainty: { p: pressureDoubt(material, first.p, again) },
      sources: [...substanceSources(substance), ...pairSources(material)],
      assumptions: [
        "The vessel keeps its temperature: withdrawing slowly. Quick vapour withdrawal cools the liquid and its pressure falls further.",
        ...estimateSentences(material),
      ],
    };
  },
});
