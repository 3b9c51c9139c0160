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
import { mayBurn } from "../stages/cautions.ts";
import type { ProductView, TrialView } from "../view.ts";
import { chargedMass } from "./charged-mass.ts";
import { knownSubstance } from "./claims/known-substance.ts";
import type { KnownSubstance } from "./claims/context.ts";
import { testedOtherwise } from "./claims/sample-tests.ts";

/** What is taken for the content of a can. */
export interface TakenAs {
  readonly name: string;
  /**
   * `stand-in`: nobody says what it is, so the fluid with the lowest flammability limit stands for it; the same as
   * `tested-otherwise`, where a test says that it is not what its label declares or may burn.
   */
  readonly because: "declared" | "identified" | "stand-in" | "tested-otherwise" | "label";
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

/** Lowest limit by mass among vehicle refrigerants, with R600a: ASHRAE 34 table 4-1. */
const STAND_IN = "R290";
/** Air of tables, K. */
const AIR_T = 298.15;

interface Asked {
  readonly product: string;
  readonly name: string;
  readonly substance: KnownSubstance | undefined;
  readonly takenAs: TakenAs | undefined;
  readonly mass: number | undefined;
  readonly massFrom: HazardFinding["massFrom"];
}

/** What a product is taken as: what it declares unless a test speaks against it, else what would burn soonest if it may burn. */
export function takenAs(view: TrialView, product: ProductView): TakenAs | undefined {
  if (testedOtherwise(view, product)) return { name: STAND_IN, because: "tested-otherwise" };
  const declared = knownSubstance(product.fluid);
  if (declared) return { name: declared.name, because: "declared" };
  return mayBurn(product) ? { name: STAND_IN, because: "stand-in" } : undefined;
}

function askedOf(
  view: TrialView,
  product: ProductView,
  identified: KnownSubstance | undefined,
): Asked {
  const charged = chargedMass(view, product.id)?.value;
  const taken = identified
    ? ({ name: identified.name, because: "identified" } as const)
    : takenAs(view, product);
  return {
    product: product.id,
    name: product.name,
    substance: identified ?? knownSubstance(taken?.name),
    takenAs: taken,
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
 * @param identified Contents of products, by their id, that an identification settled.
 */
export const hazardFindings = (
  view: TrialView,
  identified: ReadonlyMap<string, KnownSubstance> = new Map(),
): readonly HazardFinding[] =>
  [
    ...view.products.map((product) => askedOf(view, product, identified.get(product.id))),
    ...label(view),
  ].map((asked) => findingOf(view, asked));

function findingOf(view: TrialView, asked: Asked): HazardFinding {
  const { product, name, substance, takenAs: taken, mass, massFrom } = asked;
  const volume = view.vehicle?.cabinVolume;
  const bare = {
    product,
    name,
    takenAs: taken,
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
