import type { Evidence } from "../../evidence/index.ts";
import { findFamily } from "../../evidence/index.ts";
import { isFluidId } from "../../fluids/index.ts";
import { unitSize } from "../../units/index.ts";
import { vehicleAccount } from "../ledger/view.ts";
import { ranOn } from "./contents-running.ts";
import type { GatheredEvidence } from "./gathered-evidence.ts";
import type { EntryOf, ReadingView, TrialView, VesselView } from "../view.ts";

/** Everything in a log that says what a product is. */
export interface ContentsEvidence {
  readonly product: string;
  /** In order: vessel, vehicle at rest and running, detectors, label. */
  readonly items: readonly GatheredEvidence[];
  /** Readings that could not be used, and what is missing beside them. */
  readonly unused: readonly { readonly entry: string; readonly because: string }[];
}

/** Uncertainties where no instrument is named (common practice, no source). */
const ASSUMED = {
  pressure: (0.02 * 500 * unitSize("psi")) / Math.sqrt(3),
  temperature: 2 / Math.sqrt(3),
  /** 5 g and 1 %. */
  mass: 0.005,
  volume: 0.01,
} as const;
/** As many as one question carries: of more, the last. */
const MOST = 20;
/** A temperature belongs to a pressure that was read within this time of it, ms. */
const TOGETHER = 3 * 3_600_000;

/**
 * Evidence about what a product is: pressures of its can and of the vehicle at rest, mass and volume, boiling
 * point, runs of the vehicle on it, identifiers and detectors, and what it declares. Nothing is computed here; `identify` weighs it.
 *
 * @param round Id of the product.
 */
export function contentsOf(view: TrialView, round: string): ContentsEvidence {
  const mine = view.readings.filter((reading) => reading.round === round);
  const product = view.products.find(({ id }) => id === round);
  const vessel = pressures(mine, "vessel-pressure", "vessel-temperature", "can");
  const vehicle = pressures(atRest(mine), "static-low", "metal-temperature", "vehicle");
  const label = declared(product?.fluid);
  return {
    product: round,
    items: [
      ...vessel.items,
      ...boiling(view, mine),
      ...canFill(view, mine, round),
      ...vehicle.items,
      ...(vehicle.items.length > 0 ? vehicleFill(view, round) : []),
      ...ranOn(view, round),
      ...tests(view, round),
      ...(label ? [{ evidence: label, entries: [round] }] : []),
    ].slice(-MOST),
    unused: [...vessel.unused, ...vehicle.unused],
  };
}

/** One side is enough at rest: the high side stands for the low side where only it was read. */
function atRest(readings: readonly ReadingView[]): readonly ReadingView[] {
  if (readings.some(({ quantity }) => quantity === "static-low")) return readings;
  return readings.map((reading) =>
    reading.quantity === "static-high" ? { ...reading, quantity: "static-low" } : reading,
  );
}

function pressures(
  readings: readonly ReadingView[],
  quantity: ReadingView["quantity"],
  beside: ReadingView["quantity"],
  vessel: "can" | "vehicle",
): Pick<ContentsEvidence, "items" | "unused"> {
  const temperatures = readings.filter((reading) => reading.quantity === beside);
  const found = readings
    .filter((reading) => reading.quantity === quantity)
    .map((reading) => ({ reading, metal: nearest(reading, temperatures) }));
  return {
    items: found.flatMap(({ reading, metal }) => {
      if (!metal) return [];
      const evidence: Evidence = {
        kind: "pressure",
        p: reading.value,
        u: reading.u ?? ASSUMED.pressure,
        T: metal.value,
        uT: metal.u ?? ASSUMED.temperature,
        vessel,
        gauge: reading.instrument ?? "a gauge that was not named",
        thermometer: metal.instrument ?? "a thermometer that was not named",
      };
      return [{ evidence, entries: [reading.id, metal.id] }];
    }),
    unused: found.flatMap(({ reading, metal }) =>
      metal
        ? []
        : [
            {
              entry: reading.id,
              because:
                "A pressure at rest says nothing without the temperature of the liquid, read at the same time.",
            },
          ],
    ),
  };
}

/** The reading nearest in time, of the same vessel where both name one. */
function nearest(
  { when, vessel }: ReadingView,
  others: readonly ReadingView[],
): ReadingView | undefined {
  const distance = (other: ReadingView) => Math.abs(Date.parse(other.when) - Date.parse(when));
  return others
    .filter((other) => !vessel || !other.vessel || other.vessel === vessel)
    .filter((other) => distance(other) <= TOGETHER)
    .reduce<ReadingView | undefined>(
      (best, other) => (best && distance(best) <= distance(other) ? best : other),
      undefined,
    );
}

function boiling(view: TrialView, readings: readonly ReadingView[]): GatheredEvidence[] {
  return readings
    .filter(({ quantity }) => quantity === "boiling-temperature")
    .map(({ id, value, u, instrument }) => ({
      evidence: {
        kind: "boiling",
        T: value,
        uT: u ?? ASSUMED.temperature,
        p: view.atmosphere.value,
        u: view.atmosphere.u,
        thermometer: instrument ?? "a thermometer that was not named",
      },
      entries: [id],
    }));
}

/** Net mass of the product's can and its volume: weighed full with a known tare, or what came out until it was empty. */
function canFill(
  view: TrialView,
  readings: readonly ReadingView[],
  round: string,
): GatheredEvidence[] {
  const gross = readings.findLast(({ quantity }) => quantity === "gross-mass");
  const volume = readings.findLast(({ quantity }) => quantity === "can-volume");
  const can = canOf(view, volume?.vessel ?? gross?.vessel, round);
  const inside = volume?.value ?? can?.waterCapacity;
  if (!can || inside === undefined) return [];
  const net = weighedFull(view, can, gross) ?? drawnOut(view, can);
  if (!net || !(net.mass > 0)) return [];
  return [
    {
      evidence: {
        kind: "fill",
        vessel: "can",
        mass: net.mass,
        uMass: net.u,
        volume: inside,
        uVolume: volume?.u ?? ASSUMED.volume * inside,
        full: net.full,
      },
      entries: [...net.entries, ...(volume ? [volume.id] : [])],
    },
  ];
}

interface NetMass {
  readonly mass: number;
  readonly u: number;
  readonly full: boolean;
  readonly entries: readonly string[];
}

function weighedFull(
  view: TrialView,
  { id, tare }: VesselView,
  gross: ReadingView | undefined,
): NetMass | undefined {
  if (!gross || tare === undefined || (gross.vessel ?? id) !== id) return undefined;
  const u = gross.u ?? ASSUMED.mass;
  return {
    mass: gross.value - tare,
    u: Math.hypot(u, u),
    full: !drawnBefore(view, id, gross.when),
    entries: [gross.id],
  };
}

/** Vapour that stays in a can that counts as empty, of its net mass (common practice, no source). */
const STAYS = 0.03;

/** What the scale saw leave a can until it was found empty. */
function drawnOut({ ledger }: TrialView, { id }: VesselView): NetMass | undefined {
  const account = ledger.accounts.find((each) => each.id === id);
  if (account?.foundEmpty === undefined) return undefined;
  const out = ledger.postings.filter(
    ({ from, leg, evidence }) =>
      from === id && (leg === "moved" || leg === "purged") && evidence !== "stated",
  );
  const mass = out.reduce((sum, each) => sum + each.mass.value, 0);
  const variance = out.reduce((sum, each) => sum + each.mass.u ** 2, 0);
  const u = Math.hypot(Math.sqrt(variance), STAYS * mass);
  return { mass, u, full: true, entries: [...new Set(out.map(({ entry }) => entry))] };
}

/** The vessel that was named, or the only can that holds the product. */
function canOf(
  { vessels }: TrialView,
  named: string | undefined,
  round: string,
): VesselView | undefined {
  if (named !== undefined) return vessels.find(({ id }) => id === named);
  const holding = vessels.filter(
    ({ kind, holds }) =>
      kind === "can" && holds?.substance.kind === "product" && holds.substance.product === round,
  );
  return holding.length === 1 ? holding[0] : undefined;
}

const drawnBefore = ({ ledger }: TrialView, vessel: string, when: string): boolean =>
  ledger.postings.some(
    ({ from, when: posted }) => from === vessel && Date.parse(posted) <= Date.parse(when),
  );

/** What went into the vehicle in this round, in its known volume. */
function vehicleFill({ vehicle, ledger }: TrialView, round: string): GatheredEvidence[] {
  const volume = vehicle?.internalVolume;
  if (!vehicle || volume === undefined) return [];
  const key = `product:${round}`;
  const charged = ledger.postings.flatMap(({ entry, to, leg, parts }) => {
    const part = parts.find(({ substance }) => substance === key);
    return to === vehicleAccount && leg === "moved" && part ? [{ entry, mass: part.mass }] : [];
  });
  const mass = charged.reduce((sum, each) => sum + each.mass.value, 0);
  if (!(mass > 0)) return [];
  const uMass = Math.sqrt(charged.reduce((sum, each) => sum + each.mass.u ** 2, 0));
  return [
    {
      evidence: {
        kind: "fill",
        vessel: "vehicle",
        mass,
        uMass,
        volume,
        // Hoses, oil and what the label does not say (common practice, no source).
        uVolume: 0.12 * volume,
        full: false,
      },
      entries: [...charged.map(({ entry }) => entry), vehicle.entry],
    },
  ];
}

/** Identifiers and detectors of this round that stand. */
function tests({ entries }: TrialView, round: string): GatheredEvidence[] {
  return entries
    .filter((entry): entry is EntryOf<"sample-tested"> => entry.type === "sample-tested")
    .filter(({ body, withdrawn }) => body.round === round && !withdrawn)
    .flatMap(({ id, body }): GatheredEvidence[] => {
      const evidence = testOf(body);
      return evidence ? [{ evidence, entries: [id] }] : [];
    });
}

type IdentifierPart = Extract<Evidence, { kind: "identifier" }>["parts"][number]["substance"];

function testOf({
  method,
  parts,
  responded,
}: EntryOf<"sample-tested">["body"]): Evidence | undefined {
  if (method === "identifier") {
    const known = (parts ?? []).flatMap(({ substance, percent }) => {
      const named: IdentifierPart | undefined =
        substance === "air" || substance === "hydrocarbons" || isFluidId(substance)
          ? substance
          : undefined;
      return named === undefined ? [] : [{ substance: named, fraction: percent / 100 }];
    });
    const sum = known.reduce((total, { fraction }) => total + fraction, 0);
    return known.length > 0 && sum <= 1.02 ? { kind: "identifier", parts: known } : undefined;
  }
  if (responded === undefined) return undefined;
  const detects = method === "halogen-detector" ? "halogen" : "combustible";
  return { kind: "detector", detects, responded };
}

const declared = (fluid: string | undefined): Evidence | undefined =>
  fluid !== undefined && findFamily(fluid) ? { kind: "label", declares: fluid } : undefined;
