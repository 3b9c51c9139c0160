import {
  type CanPlan,
  canPlan,
  chargingNumber,
  limitOfError,
  materialOf,
  type PhaseAdvice,
  phaseAdvice,
} from "../../service/index.ts";
import { toSI } from "../../units/index.ts";
import { modelOf } from "../expectation/vehicle-model.ts";
import { vehicleAccount } from "../ledger/view.ts";
import type { Measured } from "../measured.ts";
import type { InstrumentView, ProductView, TrialView } from "../view.ts";
import { chargePlan, type ChargePlan } from "./charge-plan.ts";
import { type FindingPlace, onLabel, putIn } from "./handled.ts";

/** A listed scale against what the target needs, kg. */
export interface ScaleFit {
  readonly name: string;
  readonly limit: number;
  readonly fine: boolean;
}

export interface ChargingFinding {
  readonly kind: "finding";
  readonly product: string;
  readonly label: string;
  /** kg on the label. */
  readonly labelCharge: number;
  readonly plan: ChargePlan;
  readonly phase: PhaseAdvice | undefined;
  /** Absent while the can's net mass is not listed. */
  readonly cans: CanPlan | undefined;
  readonly scales: readonly ScaleFit[];
  /** Put in so far in this round, kg. */
  readonly charged: Measured | undefined;
  /** K, and whether it was read. */
  readonly ambient: number;
  readonly assumed: readonly string[];
}

export interface NoCharging {
  readonly kind: "missing";
  readonly why: string;
}

/** Humidity nobody read (common practice, no source). */
const HUMIDITY = 0.4;
const memory = new WeakMap<TrialView, Map<string, ChargingFinding | NoCharging>>();

/**
 * What a charge stage can say: the target by every method, cans, phase, pressures on the way, stop marks.
 *
 * Cost: 50 to 500 ms the first time for a view, with the property table of the product; nothing after that.
 */
export function chargingFinding(
  view: TrialView,
  place: FindingPlace,
): ChargingFinding | NoCharging {
  const known = memory.get(view) ?? new Map<string, ChargingFinding | NoCharging>();
  memory.set(view, known);
  const key = `${place.stage} ${place.round ?? "-"}`;
  const found = known.get(key) ?? find(view, place);
  known.set(key, found);
  return found;
}

const missing = (why: string): NoCharging => ({ kind: "missing", why });

function find(view: TrialView, place: FindingPlace): ChargingFinding | NoCharging {
  const { vehicle } = view;
  if (!vehicle) return missing("Describe the vehicle first: the target starts from its label.");
  const label = onLabel(view);
  if (!label?.known) {
    return missing(`${vehicle.labelRefrigerant} has no equation here, so nothing follows from it.`);
  }
  const product = putIn(view, place);
  if (!product?.known) {
    return missing(
      `${product?.name ?? "The product"} does not say what it is. Identify it first: without its density no mass follows from the label charge.`,
    );
  }
  const assumed: string[] = [];
  const ambient = ambientOf(view, assumed);
  const model = modelOf(vehicle);
  if (model.kind === "none") assumed.push(`no vehicle model: ${model.why}`);
  const humidity = view.readings.findLast(({ quantity }) => quantity === "outside-humidity")?.value;
  const plan = chargePlan({
    product: product.known,
    label: { ...label.known, charge: vehicle.labelCharge },
    volume: vehicle.internalVolume,
    ...{ ambient, condensing: chargingNumber("condensing").value },
    humidity: humidity ?? HUMIDITY,
    pAir: view.atmosphere.value,
    vehicle: model.kind === "model" ? model.vehicle : undefined,
  });
  if (plan.kind === "failed") return missing(`The equations of ${product.name} end before this.`);
  if (plan.volumeOfModel) assumed.push("internal volume from the model of this kind of vehicle");
  const material = materialOf(product.known.moles);
  const advice = phaseAdvice(material, ambient);
  const listed = view.products.find(({ id }) => id === place.round);
  return {
    kind: "finding",
    ...{ product: product.name, label: label.name, labelCharge: vehicle.labelCharge, plan },
    phase: advice.kind === "advice" ? advice : undefined,
    cans: cansOf(view, { plan, listed, ambient, material, assumed }),
    scales: scaleFits(view.instruments, plan.tolerance.scaleLimit),
    charged: chargedHere(view, place),
    ...{ ambient, assumed },
  };
}

function ambientOf({ readings }: TrialView, assumed: string[]): number {
  const read = readings.findLast(
    ({ quantity }) => quantity === "shop-temperature" || quantity === "outside-temperature",
  );
  if (!read) assumed.push("25 °C in the shop");
  return read?.value ?? chargingNumber("ambient").value;
}

interface CanContext {
  readonly plan: ChargePlan;
  readonly listed: ProductView | undefined;
  readonly ambient: number;
  readonly material: ReturnType<typeof materialOf>;
  readonly assumed: string[];
}

function cansOf(view: TrialView, context: CanContext): CanPlan | undefined {
  const { plan, listed, ambient, material, assumed } = context;
  if (listed?.labelMass === undefined) return undefined;
  const volume = view.readings.findLast(({ quantity }) => quantity === "can-volume")?.value;
  assumed.push("a charging hose of 4.8 mm and 1.8 m, and a low side at 3.5 bar absolute");
  if (volume === undefined) assumed.push("cans that are 85 % liquid at 25 °C");
  const cans = canPlan({
    ...{ material, target: plan.chosen.mass, net: listed.labelMass, volume, T: ambient },
    p: chargingNumber("hosePressure").value,
    hose: {
      bore: chargingNumber("hoseBore").value,
      length: chargingNumber("hoseLength").value,
    },
  });
  return cans?.kind === "cans" ? cans : undefined;
}

function scaleFits(instruments: readonly InstrumentView[], most: number): readonly ScaleFit[] {
  return instruments
    .filter(({ measures }) => measures === "mass")
    .flatMap(({ name, accuracy }) => {
      // Only a stated limit is the same at every load; a percentage needs the load.
      if (accuracy.kind !== "limit") return [];
      const limit = limitOfError({ kind: "limit", limit: toSI(accuracy.limit) }, 0);
      return [{ name, limit, fine: limit <= most }];
    });
}

/** Mass that this round put into the vehicle, kg. */
function chargedHere(view: TrialView, { stage, round }: FindingPlace): Measured | undefined {
  const entries = new Set(
    view.entries
      .filter(({ body }) => "stage" in body && body.stage === stage && body.round === round)
      .map(({ id }) => id),
  );
  const lines = view.ledger.postings.filter(
    ({ entry, to, leg }) => entries.has(entry) && to === vehicleAccount && leg === "moved",
  );
  if (lines.length === 0) return undefined;
  const value = lines.reduce((sum, { mass }) => sum + mass.value, 0);
  return { value, u: Math.hypot(...lines.map(({ mass }) => mass.u)) };
}
