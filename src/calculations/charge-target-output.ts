import { z } from "zod";
import { compositionSchema } from "./blend-answer.ts";

const kg = (says: string) => z.number().describe(`${says}, kg`);
const method = z
  .enum(["liquid-at-ambient", "liquid-at-condensing", "internal-volume", "vehicle-optimum"])
  .describe(
    "liquid-at-…: same liquid volume as the label charge; internal-volume: same liquid level in the resting system, vapour counted; vehicle-optimum: same reserve in the model's buffer",
  );
const range = z.strictObject({ from: kg("Least"), to: kg("Most") });

export const chargeTargetOutput = z.strictObject({
  masses: z
    .array(
      z.strictObject({
        method,
        mass: kg("By this method"),
        ratio: z.number().describe("Of the label charge"),
        range: range.optional().describe("From mild to hot weather"),
      }),
    )
    .describe("By every method that the input allows"),
  target: z
    .strictObject({
      mass: kg("Target"),
      method,
      from: kg("Smallest of the methods"),
      to: kg("Largest of the methods"),
    })
    .describe("By the best of the methods"),
  claim: z.strictObject({
    equalLiquidVolume: kg("Label refrigerant whose liquid fills as much as the target"),
    perCan: kg("Label refrigerant that one can is said to equal").optional(),
    says: z.string(),
  }),
  tolerance: z.strictObject({
    tolerance: kg("How far it may be off"),
    scaleLimit: kg("Limit of error of a scale that settles it"),
    from: kg("Least that passes"),
    to: kg("Most that passes"),
  }),
  plateau: z
    .strictObject({
      from: kg("Coils and lines served"),
      to: kg("Buffer full"),
      reserve: z.number().describe("Part of the buffer that is filled"),
    })
    .optional()
    .describe("Charges over which the modelled system runs alike"),
  phase: z.strictObject({
    take: z.enum(["liquid", "either"]),
    glide: z.number().describe("K at the can's pressure"),
    asCharged: compositionSchema,
    firstVapour: compositionSchema.optional().describe("What comes out if vapour is taken first"),
    why: z.string(),
  }),
  cans: z
    .strictObject({
      cans: z.int().describe("Cans to open"),
      volume: z.number().describe("Volume of a can, m3"),
      assumedVolume: z.boolean(),
      residue: kg("Vapour that stays in an emptied can at 3.5 bar"),
      residueSaturated: kg("The same if it is only left to equalise"),
      hose: z.strictObject({
        volume: z.number().describe("m3"),
        liquid: kg("In the hose as liquid"),
        vapour: kg("In the hose as vapour"),
      }),
      delivered: kg("What a can gives"),
      lastDraw: kg("To be drawn from the last can, its hose filled"),
      spare: kg("Left in the last can beyond its vapour"),
    })
    .optional(),
  atRest: z
    .strictObject({
      firstLiquid: kg("From here on the gauge stops rising"),
      points: z.array(
        z.strictObject({
          mass: kg("In the system"),
          p: z.number().describe("Absolute, Pa"),
          liquidFraction: z.number(),
        }),
      ),
    })
    .optional()
    .describe("The resting system while mass goes in"),
  running: z
    .array(
      z.strictObject({
        mass: kg("In the system"),
        state: z.enum(["running", "stopped", "unresolved"]),
        reason: z.string().optional(),
        low: z.number().optional().describe("Absolute, Pa"),
        high: z.number().optional().describe("Absolute, Pa; while the clutch is engaged"),
        vent: z.number().optional().describe("K"),
        superheat: z.number().optional().describe("K"),
        subcooling: z.number().optional().describe("K"),
        regime: z.string().optional(),
      }),
    )
    .describe("The vehicle's model parked at raised idle; empty without a vehicle"),
  stops: z
    .strictObject({
      mass: kg("Stop here"),
      mostMass: kg("Never beyond"),
      highExpected: z.number().optional().describe("High side at the target, absolute, Pa"),
      high: z
        .number()
        .optional()
        .describe("Upper end of its 95 % band: stop whatever the scale says, absolute, Pa"),
    })
    .describe("Stop marks"),
});
export type ChargeTargetResult = z.infer<typeof chargeTargetOutput>;
