import { compute } from "../calculations/index.ts";
import type { Identification, TrialView } from "../trial/index.ts";
import { conditionNames } from "./names.ts";
import {
  type CycleLine,
  type PiecedLine,
  type StatePoint,
  thinned,
} from "./pictures/phase-points.ts";
import type { PressureEnthalpyProps } from "./pictures/pressure-enthalpy-props.ts";

/** A charge on its pressure–enthalpy diagram: the lines of what it is, and a loop at the pressures that were read. */
export interface MeasuredLoop {
  readonly product: string;
  readonly name: string;
  readonly fluid: string;
  readonly picture: Omit<PressureEnthalpyProps, "id" | "width" | "shown" | "title">;
}

/** Superheat and subcooling that no thermometer of the trial told, K (common practice, no source). */
const ASSUMED = 5;
const LOWEST = 0.5;
const MOST_POINTS = 32;

interface Column {
  readonly T: readonly number[];
  readonly p: readonly number[];
  readonly h: readonly number[];
}
interface Line {
  readonly pieces: readonly Column[];
}
interface Diagram {
  readonly bubble: Line;
  readonly dew: Line;
  readonly critical: StatePoint | null;
}

const linesOf = ({ pieces }: Line): PiecedLine =>
  pieces.map(({ T, p, h }) => T.map((each, i) => ({ T: each, p: p[i] ?? 0, h: h[i] ?? 0 })));

/** What a calculation says, where it says anything; its own schema is tested to be what its result is. */
function result(name: string, input: Readonly<Record<string, unknown>>): unknown {
  const answer = compute(name, input);
  return answer.kind === "answer" ? answer.result : undefined;
}

/** Temperature on a saturation line at a pressure, by ln p between its points. */
function temperatureAt(line: readonly StatePoint[], p: number): number | undefined {
  const k = line.findIndex((point, i) => i > 0 && (line[i - 1]?.p ?? 0) <= p && point.p >= p);
  const [a, b] = [line[k - 1], line[k]];
  if (!a || !b) return undefined;
  const share = Math.log(p / a.p) / Math.log(b.p / a.p);
  return a.T + share * (b.T - a.T);
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Mean pressures of a charge's runs in a condition, Pa absolute. */
function pressuresOf(view: TrialView, product: string | undefined) {
  const runs = view.runs.filter(
    ({ condition, charged }) =>
      condition === "parked-idle" &&
      (product === undefined
        ? charged.kind === "fluid"
        : charged.kind === "product" && charged.product === product),
  );
  const values = (quantity: string): number[] =>
    runs.flatMap((run) =>
      run.values.filter((one) => one.quantity === quantity).map(({ value }) => value),
    );
  const [low, high] = [values("low-side"), values("high-side")];
  return low.length > 0 && high.length > 0 ? { low: mean(low), high: mean(high) } : undefined;
}

/** By name where it has one, by its parts where not. */
type Asked = Readonly<Record<string, unknown>>;

function askedOf(found: Identification | undefined): { asked: Asked; fluid: string } | undefined {
  const [leader] = found?.families ?? [];
  if (!found || !leader || found.verdict === "none-explains") return undefined;
  if (found.verdict === "named" && leader.kind === "pure") {
    return { asked: { fluid: leader.id }, fluid: leader.title };
  }
  const parts = found.overall.filter(({ mean: share }) => share > 0.005);
  if (parts.length < 2 || parts.some(({ from, to }) => to - from > 0.1)) return undefined;
  const sum = parts.reduce((all, part) => all + part.mean, 0);
  return {
    asked: { blend: parts.map(({ fluid, mean: share }) => ({ fluid, mass: share / sum })) },
    fluid: parts.map((part) => `${part.fluid} ${(100 * part.mean).toFixed(0)} %`).join(", "),
  };
}

function loopOf(
  name: string,
  asked: Asked,
  { bubble, dew }: { readonly bubble: readonly StatePoint[]; readonly dew: readonly StatePoint[] },
  { low, high }: { readonly low: number; readonly high: number },
): CycleLine | undefined {
  const [cold, hot] = [temperatureAt(dew, low), temperatureAt(bubble, high)];
  if (cold === undefined || hot === undefined) return undefined;
  const found = result("cycle", {
    ...asked,
    low,
    high,
    suction: cold + ASSUMED,
    liquid: hot - ASSUMED,
  }) as { corners: readonly StatePoint[] } | undefined;
  const [first] = found?.corners ?? [];
  if (!found || !first) return undefined;
  return {
    name,
    points: [...found.corners, first],
    corners: found.corners.map((corner, i) => ({ ...corner, name: String(i + 1) })),
  };
}

function measuredLoop(
  view: TrialView,
  charge: {
    readonly product: string;
    readonly name: string;
    readonly asked: Asked;
    readonly fluid: string;
  },
): MeasuredLoop | undefined {
  const { product, name, asked, fluid } = charge;
  const pressures = pressuresOf(view, product === "label" ? undefined : product);
  const diagram = pressures && (result("phase-diagram", asked) as Diagram | undefined);
  if (!pressures || !diagram) return undefined;
  const side = (line: Line): readonly StatePoint[] =>
    linesOf(line)
      .flat()
      .filter(({ p }) => p >= LOWEST * pressures.low);
  const [bubble, dew] = [side(diagram.bubble), side(diagram.dew)];
  const loop = loopOf(
    `${name}, ${conditionNames["parked-idle"]}`,
    asked,
    { bubble, dew },
    pressures,
  );
  if (!loop) return undefined;
  return {
    ...{ product, name, fluid },
    picture: {
      bubble: thinned(bubble, MOST_POINTS),
      dew: thinned(dew, MOST_POINTS),
      ...(diagram.critical && { critical: diagram.critical }),
      qualities: [],
      basis: "mass",
      isotherms: [],
      states: [],
      cycles: [loop],
    },
  };
}

/**
 * The label refrigerant, and each product whose content is settled, with the loop that its mean pressures parked at
 * idle would drive: a model, as no line's temperature was read and the compressor is taken without losses.
 */
export function measuredLoops(
  view: TrialView,
  identified: ReadonlyMap<string, Identification>,
): readonly MeasuredLoop[] {
  const label = view.vehicle?.labelRefrigerant;
  const charges = [
    ...(label === undefined
      ? []
      : [{ product: "label", name: label, asked: { fluid: label }, fluid: label }]),
    ...view.products.flatMap(({ id, name }) => {
      const asked = askedOf(identified.get(id));
      return asked ? [{ product: id, name, ...asked }] : [];
    }),
  ];
  return charges.flatMap((charge) => measuredLoop(view, charge) ?? []);
}
