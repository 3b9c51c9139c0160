import { z } from "zod";
import {
  blendBubble,
  blendDew,
  type BlendMaterial,
  type Bulk,
  type BulkOutcome,
  pressureDoubt,
  temperatureDoubt,
} from "../service/index.ts";
import { compositionSchema, compositionView, noBulk } from "./blend-answer.ts";
import type { NoAnswer } from "./answer.ts";

const point = z.strictObject({
  T: z.number().describe("Temperature, K"),
  p: z.number().describe("Absolute pressure, Pa"),
  rho: z.number().describe("Density of the phase that has the blend's composition, kg/m3"),
  h: z.number().describe("Its enthalpy, J/kg; of IIR references summed over the parts"),
  s: z.number().describe("Its entropy, J/(kg K)"),
  composition: compositionSchema.describe(
    "Composition of the other phase: of the first bubble at the bubble point, of the first drop at the dew point",
  ),
  other: z
    .strictObject({ rho: z.number(), h: z.number(), s: z.number() })
    .describe("The other phase: the first bubble, or the first drop"),
});

/** What `saturation` gives for a blend. */
export const blendSaturationFields = {
  bubble: point
    .nullable()
    .optional()
    .describe("Blends: where liquid of this composition begins to boil; none if there is none"),
  dew: point
    .nullable()
    .optional()
    .describe("Blends: where vapour of this composition begins to condense"),
  glide: z
    .number()
    .nullable()
    .optional()
    .describe("Blends at a pressure: dew less bubble temperature, K"),
  missing: z
    .array(z.strictObject({ which: z.enum(["bubble", "dew"]), because: z.string() }))
    .optional()
    .describe("Blends: why one of the two is none"),
};

type Point = z.infer<typeof point>;

/** The saturated phase and its incipient partner. */
function pointView(bulk: Bulk, which: "bubble" | "dew"): Point {
  const [liquid, vapour] = bulk.phases;
  if (!liquid || !vapour) throw new RangeError("a saturation point has two phases");
  const [own, other] = which === "bubble" ? [liquid, vapour] : [vapour, liquid];
  const { rho, h, s } = own;
  const composition = compositionView(other.mass, other.moles);
  return {
    T: bulk.T,
    p: bulk.p,
    rho,
    h,
    s,
    composition,
    other: { rho: other.rho, h: other.h, s: other.s },
  };
}

/** One of the two points, or why it is missing. */
const half = (name: string, which: "bubble" | "dew", outcome: BulkOutcome) =>
  outcome.kind === "bulk"
    ? { point: pointView(outcome, which), missing: [] }
    : { point: null, missing: [{ which, because: noBulk(name, outcome).message }] };

/** Standard uncertainties of what was computed from what was given. */
function doubts(
  blend: BlendMaterial,
  at: { readonly quantity: "T" | "p"; readonly value: number },
  points: { readonly bubble: Point | null; readonly dew: Point | null },
): Record<string, number> {
  const solvers = { bubble: blendBubble, dew: blendDew } as const;
  const entries = (["bubble", "dew"] as const).flatMap((which): [string, number][] => {
    const found = points[which];
    if (!found) return [];
    if (at.quantity === "p") return [[`${which}.T`, temperatureDoubt(blend, found.T)]];
    const u = pressureDoubt(blend, found.p, (other) =>
      solvers[which](other as BlendMaterial, "T", at.value),
    );
    return [[`${which}.p`, u]];
  });
  return Object.fromEntries(entries);
}

/** Bubble and dew point of a blend at a temperature or a pressure. */
export function blendSaturation(
  name: string,
  blend: BlendMaterial,
  at: { readonly quantity: "T" | "p"; readonly value: number },
):
  | {
      readonly kind: "points";
      readonly result: {
        bubble: Point | null;
        dew: Point | null;
        glide?: number | null;
        missing?: { which: "bubble" | "dew"; because: string }[];
      };
      readonly uncertainty: Record<string, number>;
    }
  | NoAnswer {
  const boiling = blendBubble(blend, at.quantity, at.value);
  const condensing = blendDew(blend, at.quantity, at.value);
  if (boiling.kind === "failed" && condensing.kind === "failed") return noBulk(name, boiling);
  const [bubble, dew] = [half(name, "bubble", boiling), half(name, "dew", condensing)];
  const points = { bubble: bubble.point, dew: dew.point };
  const missing = [...bubble.missing, ...dew.missing];
  const glide = points.bubble && points.dew ? points.dew.T - points.bubble.T : null;
  return {
    kind: "points",
    result: {
      ...points,
      ...(at.quantity === "p" && { glide }),
      ...(missing.length > 0 && { missing }),
    },
    uncertainty: doubts(blend, at, points),
  };
}
