import { z } from "zod";
import {
  blendAtPH,
  blendAtPQuality,
  blendAtPS,
  blendAtTQuality,
  type BlendMaterial,
  type Bulk,
  bulkAtTP,
  bulkAtTRho,
  type BulkOutcome,
  type BulkPhase,
} from "../service/index.ts";
import { compositionSchema, compositionView } from "./blend-answer.ts";

export const phaseSchema = z.strictObject({
  kind: z
    .enum(["liquid", "vapour"])
    .describe("Beyond the critical point no more than dense or thin"),
  share: z.number().describe("Fraction of the mass"),
  volumeShare: z.number().describe("Fraction of the volume"),
  rho: z.number().describe("Density, kg/m3"),
  h: z.number().describe("Enthalpy, J/kg"),
  s: z.number().describe("Entropy, J/(kg K)"),
  composition: compositionSchema,
});

/** What `state` adds for a blend. */
export const blendStateFields = {
  beta: z.number().optional().describe("Blends: vapour fraction by mole"),
  phases: z
    .array(phaseSchema)
    .optional()
    .describe("Blends: the phases with their compositions, liquid first"),
};

export const phaseView = (phase: BulkPhase): z.infer<typeof phaseSchema> => {
  const { kind, share, volumeShare, rho, h, s, mass, moles } = phase;
  return { kind, share, volumeShare, rho, h, s, composition: compositionView(mass, moles) };
};

type Solver = (blend: BlendMaterial, first: number, second: number) => BulkOutcome;

/** Pairs that fix a state of a blend, by their symbols in the order of the arguments. */
const solvers: ReadonlyMap<string, Solver> = new Map<string, Solver>([
  ["T p", bulkAtTP],
  ["T q", blendAtTQuality],
  ["p q", blendAtPQuality],
  ["p h", blendAtPH],
  ["p s", blendAtPS],
  ["T rho", bulkAtTRho],
]);

export const acceptedBlendPairs: string = [...solvers.keys()]
  .map((pair) => `(${pair.replace(" ", ", ")})`)
  .join(", ");

/** The state of a blend at a pair of quantities per kg; `undefined` if the pair is not one of the accepted. */
export function blendState(
  blend: BlendMaterial,
  first: readonly [symbol: string, value: number],
  second: readonly [symbol: string, value: number],
): BulkOutcome | undefined {
  const there = solvers.get(`${first[0]} ${second[0]}`);
  if (there) return there(blend, first[1], second[1]);
  return solvers.get(`${second[0]} ${first[0]}`)?.(blend, second[1], first[1]);
}

/** A blend's state with the names of the pure fluids' results. */
export function blendStateView(bulk: Bulk) {
  const { T, p, rho, h, s, u, beta, quality, phases } = bulk;
  const only = phases.length === 1 ? phases[0] : undefined;
  const phase: "two-phase" | "liquid" | "gas" =
    only === undefined ? "two-phase" : only.kind === "liquid" ? "liquid" : "gas";
  return {
    ...{ T, p, rho, h, s, u },
    cv: only?.cv ?? null,
    cp: only?.cp ?? null,
    w: only?.w ?? null,
    q: only === undefined ? quality : null,
    phase,
    beta,
    phases: phases.map(phaseView),
  };
}
