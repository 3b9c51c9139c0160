import {
  CABIN_HEIGHT,
  type Escape,
  LAYER_HEIGHT,
  type LeakCase,
  type LocalAir,
  perHour,
  ventilations,
} from "../service/index.ts";
import { invalidInput, type InvalidInput, issue } from "./answer.ts";
import type { ValuesOf } from "./field.ts";
import type { leakFields } from "./leak-fields.ts";
import type { Substance } from "./substance-field.ts";

export type LeakValues = ValuesOf<typeof leakFields>;

/** A car in the sun, K, and the table's air, K. Common practice, no source. */
const HOT = 323.15;
const TABLE_AIR = 298.15;
/** Highest of the usual range 0.6 to 0.85. */
const COEFFICIENT = 0.85;

/** A question that makes sense, with the air stirred and with a layer. */
export interface AskedLeak {
  readonly kind: "leak-case";
  readonly leak: LeakCase & { readonly space: Required<LeakCase["space"]> };
  readonly sentences: readonly string[];
}

/** At most one of the ways to say how quick it is. */
function escapeOf(values: LeakValues, air: LocalAir): Escape | InvalidInput {
  const { hole, duration, ratePerMinute, mass } = values;
  const given = (["hole", "duration", "ratePerMinute"] as const).filter(
    (name) => values[name] !== undefined,
  );
  const second = given[1];
  if (second !== undefined) {
    return invalidInput(issue(second, values[second], `one of: ${given.join(", ")}`));
  }
  if (duration !== undefined) return { kind: "steady", rate: mass / duration };
  if (ratePerMinute !== undefined) return { kind: "steady", rate: ratePerMinute / 60 };
  if (hole === undefined) return { kind: "at-once" };
  const coefficient = values.dischargeCoefficient ?? COEFFICIENT;
  if (!(coefficient > 0)) {
    return invalidInput(issue("dischargeCoefficient", coefficient, "above 0, at most 1"));
  }
  return {
    kind: "hole",
    hole: {
      T: values.T ?? HOT,
      area: (Math.PI / 4) * hole ** 2,
      dischargeCoefficient: coefficient,
      phase: values.phase ?? "liquid",
      discharge: values.discharge ?? "bernoulli",
      outside: air.p,
      vesselVolume: values.systemVolume,
    },
  };
}

/** Reads the question, or says which fields contradict each other. */
export function leakCase(
  values: LeakValues,
  substance: Substance,
  air: LocalAir,
): AskedLeak | InvalidInput {
  const escape = escapeOf(values, air);
  if (escape.kind === "invalid") return escape;
  const { volume, ventilation = "sealed", airChanges } = values;
  const named = ventilations.find(({ name }) => name === ventilation) ?? ventilations[0];
  const changes = airChanges ?? named.changes;
  const floorArea = values.floorArea ?? volume / CABIN_HEIGHT;
  const height = values.layerHeight ?? LAYER_HEIGHT;
  if (floorArea * height >= volume) {
    const field = values.layerHeight === undefined ? "floorArea" : "layerHeight";
    return invalidInput(issue(field, values[field], "a layer smaller than the whole volume"));
  }
  const exchange = perHour(values.layerExchange ?? 0);
  return {
    kind: "leak-case",
    leak: {
      moles: substance.moles,
      named: substance.named,
      mass: values.mass,
      space: { volume, airChanges: perHour(changes), layer: { floorArea, height, exchange } },
      air: { T: values.airT ?? TABLE_AIR, p: air.p },
      escape,
      lfl: values.lfl,
      until: values.until,
    },
    sentences: [
      airChanges === undefined
        ? `Fresh air: ${named.words}, ${named.changes} changes an hour. An assumption, not a measurement: studies scatter by a factor of three and more, and this is their low end.`
        : `Fresh air: ${changes} changes an hour, as given.`,
      `Layer: ${height.toFixed(2)} m over ${floorArea.toFixed(2)} m² of floor, exchanging its air ${values.layerExchange ?? 0} times an hour with the air above, where the fresh air enters. Height and floor are common practice without a source unless given.`,
      ...escapeSentences(escape),
    ],
  };
}

function escapeSentences(escape: Escape): readonly string[] {
  switch (escape.kind) {
    case "at-once":
      return ["All of it escapes in one moment and is vapour at once: nothing is quicker."];
    case "steady":
      return ["It leaks evenly until nothing is left."];
    case "hole": {
      const { phase, discharge, vesselVolume } = escape.hole;
      const flow =
        phase === "vapour"
          ? "Vapour leaves as a real gas does, choked or not, in equilibrium."
          : discharge === "bernoulli"
            ? "Liquid leaves by Bernoulli's rate without flashing: the most there can be."
            : "Liquid flashes on its way out in equilibrium; through a thin wall it may flow quicker.";
      return [
        flow,
        "The vessel keeps its temperature, and its pressure while there is liquid. In truth both fall, so the leak is slower.",
        vesselVolume === undefined
          ? "The system's volume is not given: all of it leaves at the full rate."
          : "When the liquid is gone, pressure falls with the mass of the vapour down to that of the air, and the flow with it as if choked to the end.",
      ];
    }
  }
}
