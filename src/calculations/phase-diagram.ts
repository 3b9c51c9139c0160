import { z } from "zod";
import { type ChartLine, type ChartPoint, materialOf, phaseDiagram } from "../service/index.ts";
import { estimateSentences, pairSources } from "./blend-answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { choice, optional } from "./field.ts";
import { substanceFields, substanceOf, substanceSources } from "./substance-field.ts";

const column = z.array(z.number());
const line = z.strictObject({
  pieces: z
    .array(
      z.strictObject({
        T: column.describe("K"),
        p: column.describe("Pa, absolute"),
        rho: column.describe("kg/m3"),
        h: column.describe("J/kg"),
        s: column.describe("J/(kg K)"),
      }),
    )
    .describe("Columns of equal length, one object for each unbroken piece"),
  gaps: z
    .array(
      z.strictObject({
        quantity: z.enum(["T", "p"]),
        value: z.number(),
        because: z.enum([
          "out-of-range",
          "supercritical",
          "below-minimum",
          "no-solution",
          "not-converged",
        ]),
      }),
    )
    .describe("Where the line is broken or ends, and why"),
});
const output = z.strictObject({
  name: z.string(),
  range: z.strictObject({
    T: z.strictObject({ from: z.number(), to: z.number() }),
    p: z.strictObject({ from: z.number(), to: z.number() }),
  }),
  critical: z
    .strictObject({ T: z.number(), p: z.number(), rho: z.number(), h: z.number(), s: z.number() })
    .nullable()
    .describe("Critical point of a pure fluid's equation; none for a blend"),
  bubble: line.describe("Saturated liquid; of a blend with the blend's composition"),
  dew: line.describe("Saturated vapour; of a blend with the blend's composition"),
  isotherms: z.array(z.strictObject({ T: z.number(), line })),
  fractions: z
    .array(z.strictObject({ fraction: z.number(), line }))
    .describe("Lines of one vapour fraction by mole; of a pure fluid also by mass"),
});

const columnsOf = (piece: readonly ChartPoint[]) => ({
  T: piece.map(({ T }) => T),
  p: piece.map(({ p }) => p),
  rho: piece.map(({ rho }) => rho),
  h: piece.map(({ h }) => h),
  s: piece.map(({ s }) => s),
});

const lineView = ({ pieces, gaps }: ChartLine): z.infer<typeof line> => ({
  pieces: pieces.map(columnsOf),
  gaps: gaps.map((gap) => ({ ...gap })),
});

export const phaseDiagramCalculation = defineCalculation({
  name: "phase-diagram",
  title: "Lines of a pressure–enthalpy or pressure–temperature chart of a fluid or blend",
  fields: {
    ...substanceFields,
    kind: optional(
      choice(
        "pressure-enthalpy, also if left out: with isotherms and lines of vapour fraction; pressure-temperature: the saturation lines only",
        ["pressure-enthalpy", "pressure-temperature"],
      ),
    ),
  },
  output,
  cautions: [cautions.equation],
  sources: [],
  run({ fluid, blend, kind = "pressure-enthalpy" }) {
    const substance = substanceOf({ fluid, blend });
    if (substance.kind === "invalid") return substance;
    const material = materialOf(substance.moles);
    const { range, critical, bubble, dew, isotherms, fractions } = phaseDiagram(material, kind);
    const assumptions = estimateSentences(material);
    return {
      kind: "answer",
      result: {
        name: substance.name,
        range: { T: { ...range.T }, p: { ...range.p } },
        critical: critical ? { ...critical } : null,
        bubble: lineView(bubble),
        dew: lineView(dew),
        isotherms: isotherms.map((each) => ({ T: each.T, line: lineView(each.line) })),
        fractions: fractions.map((each) => ({
          fraction: each.fraction,
          line: lineView(each.line),
        })),
      },
      sources: [...substanceSources(substance), ...pairSources(material)],
      ...(assumptions.length > 0 && { assumptions }),
    };
  },
});
