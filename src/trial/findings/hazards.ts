import {
  CABIN_HEIGHT,
  climateOf,
  type Edition,
  editions,
  LAYER_HEIGHT,
  type LeakHazard,
  leakHazard,
  type Part,
  perHour,
  poisonsInFlame,
  ventilations,
  type ZoneHazard,
} from "../../service/index.ts";
import { given } from "../given.ts";
import type { Treatment } from "../stages/treatment.ts";
import type { ProductView, TrialView } from "../view.ts";
import { chargedMass } from "./charged-mass.ts";
import { knownSubstance } from "./claims/known-substance.ts";
import type { KnownSubstance } from "./claims/context.ts";
import { type Identification, identifiedSubstance } from "./identified.ts";
import { treatmentOf, worstOf } from "./treatments.ts";

/** What is taken for the content of a can. */
export interface TakenAs {
  readonly name: string;
  /** `worst`: nothing proves what it is, so the worst of what it may still hold stands for it. */
  readonly because: "identified" | "worst" | "label";
}

/** The same leak under one named assumption. */
export interface LeakScenario {
  readonly name: "sealed-stirred" | "sealed-layer" | "fan-stirred";
  readonly zone: ZoneHazard;
}

/** What a leak of one charge into this cabin would do. */
export interface HazardFinding {
  /** A product's id; `label` for the vehicle's own refrigerant. */
  readonly product: string;
  readonly name: string;
  readonly takenAs?: TakenAs;
  /** What it is handled as; absent for the label refrigerant. */
  readonly treatment?: Treatment;
  /** By mass, of what it is taken as. */
  readonly parts?: readonly Part[];
  /** kg, and whether it went in, stands on a label, or on the vehicle. */
  readonly mass?: number;
  readonly massFrom?: "charged" | "label-mass" | "label-charge";
  /** Why nothing is worked out. */
  readonly missing?: "cabin-volume" | "mass" | "composition";
  readonly burns?: LeakHazard["rated"]["kind"];
  /** kg/m3 in this air */
  readonly lfl?: number;
  readonly scenarios: readonly LeakScenario[];
  readonly poisonInFlame: boolean;
  /** kg CO2; absent where a part has no value in the report. */
  readonly co2: readonly { readonly edition: Edition; readonly mass?: number }[];
}

/** Air of tables, K. */
const AIR_T = 298.15;

interface Asked {
  readonly product: string;
  readonly name: string;
  readonly substance: KnownSubstance | undefined;
  readonly takenAs: TakenAs | undefined;
  readonly treatment?: Treatment;
  readonly mass: number | undefined;
  readonly massFrom: HazardFinding["massFrom"];
}

/** A product is what readings bear out; until then the worst of what it may still be. */
function askedOf(view: TrialView, product: ProductView, found: Identification | undefined): Asked {
  const charged = chargedMass(view, product.id)?.value;
  const treatment = treatmentOf(view, product, found);
  const identified = found && identifiedSubstance(found);
  const substance = identified ?? knownSubstance(worstOf(treatment, found));
  return {
    product: product.id,
    name: product.name,
    substance,
    takenAs: substance && { name: substance.name, because: identified ? "identified" : "worst" },
    treatment,
    mass: charged ?? product.labelMass,
    massFrom:
      charged !== undefined
        ? "charged"
        : product.labelMass !== undefined
          ? "label-mass"
          : undefined,
  };
}

function label({ vehicle }: TrialView): Asked[] {
  if (!vehicle) return [];
  const { labelRefrigerant: name, labelCharge: mass } = vehicle;
  const substance = knownSubstance(name);
  const taken = { name, because: "label" } as const;
  return [{ product: "label", name, substance, takenAs: taken, mass, massFrom: "label-charge" }];
}

/**
 * What the whole charge would do in this cabin at once: sealed and stirred, sealed and in a layer, with fresh air.
 *
 * Nothing here rests on a leak: it is worked out from mass, volume and published limits.
 *
 * @param weighed What the evidence about the products says, by their id, as far as it was weighed.
 */
export const hazardFindings = (
  view: TrialView,
  weighed: ReadonlyMap<string, Identification> = new Map(),
): readonly HazardFinding[] =>
  [
    ...view.products.map((product) => askedOf(view, product, weighed.get(product.id))),
    ...label(view),
  ].map((asked) => findingOf(view, asked));

function findingOf(view: TrialView, asked: Asked): HazardFinding {
  const { product, name, substance, takenAs: taken, treatment, mass, massFrom } = asked;
  const volume = view.vehicle?.cabinVolume;
  const bare = {
    product,
    name,
    takenAs: taken,
    treatment,
    parts: substance?.mass,
    mass,
    massFrom,
    poisonInFlame: substance ? poisonsInFlame(substance.moles) : false,
    co2: substance && mass !== undefined ? carbon(substance, mass) : [],
  };
  if (!substance) return given({ ...bare, scenarios: [], missing: "composition" as const });
  if (mass === undefined) return given({ ...bare, scenarios: [], missing: "mass" as const });
  if (volume === undefined) {
    return given({ ...bare, scenarios: [], missing: "cabin-volume" as const });
  }
  const at = (airChanges: number): LeakHazard => {
    const found = leakHazard({
      moles: substance.moles,
      named: substance.named,
      mass,
      space: {
        volume,
        airChanges: perHour(airChanges),
        layer: { floorArea: volume / CABIN_HEIGHT, height: LAYER_HEIGHT, exchange: 0 },
      },
      air: { T: AIR_T, p: view.atmosphere.value },
      escape: { kind: "at-once" },
    });
    if (found.kind === "failed") throw new RangeError("a release at once needs no flow");
    return found;
  };
  const fan = ventilations.find((one) => one.name === "fresh-air-fan") ?? ventilations[0];
  const sealed = at(0);
  return given({
    ...bare,
    burns: sealed.rated.kind,
    lfl: sealed.lfl,
    scenarios: [
      { name: "sealed-stirred" as const, zone: sealed.stirred },
      { name: "sealed-layer" as const, zone: sealed.worst },
      { name: "fan-stirred" as const, zone: at(fan.changes).stirred },
    ],
  });
}

const carbon = ({ mass: parts }: KnownSubstance, mass: number): HazardFinding["co2"] =>
  editions.map((edition) => {
    const { value } = climateOf(parts, edition);
    return given({ edition, mass: value === null ? undefined : value * mass });
  });
