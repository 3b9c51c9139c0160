import { localAir } from "../service/index.ts";
import { isUnit, type Quantity, toSI } from "../units/index.ts";
import type { BodyOf } from "./events.ts";
import { given } from "./given.ts";
import { instrumentUncertainty } from "./instruments.ts";
import type {
  Atmosphere,
  Entry,
  EntryOf,
  EntryType,
  InstrumentView,
  OpenedPlan,
  ProductView,
  VehicleView,
  VesselView,
} from "./view.ts";

/** Lists already parted by type: a long log is looked through once, not once a type. */
const parted = new WeakMap<readonly Entry[], ReadonlyMap<EntryType, Entry[]>>();

function partsOf(entries: readonly Entry[]): ReadonlyMap<EntryType, readonly Entry[]> {
  const known = parted.get(entries);
  if (known) return known;
  const parts = new Map<EntryType, Entry[]>();
  let type: EntryType | undefined;
  let part: Entry[] = [];
  for (const entry of entries) {
    // In a long log the same type comes many times in a row.
    if (entry.type !== type) {
      ({ type } = entry);
      part = parts.get(type) ?? [];
      parts.set(type, part);
    }
    part.push(entry);
  }
  parted.set(entries, parts);
  return parts;
}

/** Entries of one type, in the order they stand. */
export const ofType = <T extends EntryType>(
  entries: readonly Entry[],
  type: T,
): readonly EntryOf<T>[] =>
  // A part holds entries of its type only; the map's type cannot say so.
  (partsOf(entries).get(type) ?? []) as unknown as readonly EntryOf<T>[];

const si = (quantity: Quantity | undefined, atmosphere?: number): number | undefined =>
  quantity && toSI(quantity, atmosphere);

export function openedPlan(entries: readonly Entry[]): OpenedPlan | undefined {
  const entry = ofType(entries, "trial-opened").at(-1);
  if (!entry) return undefined;
  const { title, question, place, altitude, margin, conditions, demonstration } = entry.body;
  return given({
    entry: entry.id,
    title,
    question,
    place,
    altitude: si(altitude),
    margin: si(margin),
    conditions,
    demonstration: demonstration ?? false,
  });
}

export function vehicleView(entries: readonly Entry[]): VehicleView | undefined {
  const entry = ofType(entries, "vehicle-described").at(-1);
  if (!entry) return undefined;
  const { labelCharge, cabinVolume, internalVolume, oil, model, ...plain } = entry.body;
  return given({
    ...plain,
    entry: entry.id,
    labelCharge: toSI(labelCharge),
    labelChargeTyped: labelCharge,
    oil,
    model,
    cabinVolume: si(cabinVolume),
    internalVolume: si(internalVolume),
  });
}

export const instrumentViews = (entries: readonly Entry[]): InstrumentView[] =>
  ofType(entries, "instrument-listed").map(({ id, body }) =>
    given({
      id,
      name: body.name,
      measures: body.measures,
      accuracy: body.accuracy,
      resolution: body.resolution,
    }),
  );

export const productViews = (entries: readonly Entry[]): ProductView[] =>
  ofType(entries, "product-listed").map(({ id, body }) =>
    given({
      id,
      name: body.name,
      fluid: body.fluid,
      declares: body.declares,
      labelMass: si(body.labelMass),
      labelMassTyped: body.labelMass,
      claims: body.claims,
      price: body.price,
      fitting: body.fitting,
      flammableMark: body.flammableMark,
    }),
  );

/** Water at 15 °C weighs 999.1 kg/m3; capacities are marked as if it were 1000. */
const waterDensity = 1000;

function capacity(quantity: Quantity | undefined): number | undefined {
  if (!quantity) return undefined;
  return isUnit(quantity.unit, "mass") ? toSI(quantity) / waterDensity : toSI(quantity);
}

function holdsView(holds: BodyOf<"vessel-listed">["holds"]): VesselView["holds"] {
  if (!holds) return undefined;
  const { substance, mass, basis, instrument } = holds;
  return given({ substance, mass: toSI(mass), basis, instrument });
}

export const vesselViews = (entries: readonly Entry[], atmosphere: number): VesselView[] =>
  ofType(entries, "vessel-listed").map(({ id, body }) =>
    given({
      id,
      name: body.name,
      kind: body.kind,
      tare: si(body.tare),
      waterCapacity: capacity(body.waterCapacity),
      ratedPressure: si(body.ratedPressure, atmosphere),
      flammableRated: body.flammableRated,
      retestBy: body.retestBy,
      holds: holdsView(body.holds),
    }),
  );

/**
 * Standard uncertainty of sea-level pressure assumed for a place nobody named, Pa: most workshops
 * stand between 0 and 1200 m, a rectangle about 13 kPa wide (a choice, no source).
 */
const unknownPlace = 4000;

/** The latest barometer reading, else the opening's barometer, else its altitude, else sea level. */
export function atmosphereOf(
  entries: readonly Entry[],
  instruments: readonly InstrumentView[],
): Atmosphere {
  const opening = ofType(entries, "trial-opened").at(-1);
  const reading = ofType(entries, "reading-taken").findLast(
    ({ body }) => body.quantity === "barometer",
  );
  const barometer = si(reading?.body.value ?? opening?.body.barometer);
  const air = localAir({ barometer, altitude: si(opening?.body.altitude) });
  // Parsing admits neither a barometer nor an altitude outside the range, so this is a defect of ours.
  if (air.kind === "out-of-range") throw new RangeError(`${air.quantity} ${air.value} got through`);
  const entry = barometer === undefined ? opening?.id : (reading ?? opening)?.id;
  const instrument = instruments.find(({ id }) => id === reading?.body.instrument);
  return given({
    value: air.p,
    u:
      air.basis === "assumed"
        ? unknownPlace
        : instrument
          ? instrumentUncertainty(instrument, air.p, air.p)
          : air.u,
    from: air.basis,
    entry: air.basis === "assumed" ? undefined : entry,
    doubt: air.doubt,
  });
}
