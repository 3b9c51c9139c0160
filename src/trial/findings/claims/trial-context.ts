import { COVERAGE } from "../../../service/index.ts";
import { toSI } from "../../../units/index.ts";
import { given } from "../../given.ts";
import { scaleUncertainty } from "../../ledger/scales.ts";
import { ofType } from "../../plan.ts";
import { quantityWords } from "../../quantity-names.ts";
import type { Comparison, Entry, ProductView, TrialView, VesselView } from "../../view.ts";
import type { ClaimContext, ClaimEffect, KnownSubstance, WeighedCan } from "./context.ts";
import { knownSubstance } from "./known-substance.ts";
import { isCanOf, testsOf } from "./sample-tests.ts";

const compared = ["vent-temperature", "low-side", "high-side"] as const;

/**
 * Differences of conditions that still count as equal, SI: temperatures 1 K, humidities 0.05, speeds by a twentieth.
 * Our own choice; head pressure moves by some 0.4 bar and vent air by some 0.7 K for each kelvin outside.
 */
const EQUAL = { temperature: 1, humidity: 0.05, speed: 0.05 } as const;

function unequalRow({ quantity, difference, baseline }: Comparison["conditions"][number]): boolean {
  const size = Math.abs(difference.value);
  if (quantity.endsWith("temperature")) return size > EQUAL.temperature;
  if (quantity.endsWith("humidity")) return size > EQUAL.humidity;
  return size > EQUAL.speed * Math.abs(baseline.value);
}

/** What was not equal between the runs of a comparison, in words; nothing if all was. */
function unequal(
  { conditions, unmeasured, condition }: Comparison,
  quantity: ClaimEffect["quantity"],
  { drift }: TrialView,
  effect: number,
): string | undefined {
  const moved = conditions.filter(unequalRow).map((row) => quantityWords(row.quantity));
  const own = drift.find((row) => row.condition === condition && row.quantity === quantity);
  const outside = conditions.some((row) => row.quantity === "outside-temperature");
  const reasons = [
    ...(moved.length > 0 ? [`Not equal: ${[...new Set(moved)].join(", ")}.`] : []),
    ...(unmeasured.length > 0
      ? [`Not measured on both sides: ${unmeasured.map(quantityWords).join(", ")}.`]
      : []),
    ...(outside ? [] : ["The outside air was not measured on both sides."]),
    ...(own === undefined ? ["The label refrigerant was not run again in this condition."] : []),
    ...(own && Math.abs(own.difference.value) >= Math.abs(effect)
      ? ["The vehicle’s own drift was as large."]
      : []),
  ];
  return reasons.length > 0 ? reasons.join(" ") : undefined;
}

/** Differences of the trial as they were read, with what was not equal. */
export function measuredEffects(view: TrialView, product: string): ClaimEffect[] {
  return view.comparisons
    .filter((comparison) => comparison.product === product)
    .flatMap((comparison) =>
      compared.flatMap((quantity) => {
        const row = comparison.rows.find(
          (one) => one.quantity === quantity && one.form === "steady",
        );
        if (!row) return [];
        const { value: effect, u } = row.difference;
        return [
          given({
            quantity,
            condition: comparison.condition,
            basis: "as-measured" as const,
            effect,
            lower: effect - COVERAGE * u,
            upper: effect + COVERAGE * u,
            unequal: unequal(comparison, quantity, view, effect),
          }),
        ];
      }),
    );
}

/** kg/m3: denser than the saturated vapour of R1234yf at 25 °C, 38 kg/m3 (equation of state). */
const RESIDUE_DENSITY = 40;
/** Of a can whose volume nobody gave, m3: common practice, no source. */
const CAN_VOLUME = 0.5e-3;
/** Kinds of substances whose vapour is far thinner: bounded by their own. */
const residueOf = ({ waterCapacity }: VesselView): number =>
  RESIDUE_DENSITY * (waterCapacity ?? CAN_VOLUME);

/** What was weighed out of each of a product's cans. */
function weighedCans(view: TrialView, standing: readonly Entry[], product: string): WeighedCan[] {
  return view.vessels
    .filter((vessel) => isCanOf(vessel, product))
    .flatMap((vessel) => {
      const drawn = ofType(standing, "transfer-posted").flatMap(({ body }) => {
        const { from, sourceWeighing: scale } = body;
        if (from !== vessel.id || !scale) return [];
        const before = toSI(scale.before);
        const { u } = scaleUncertainty(view.instruments, scale.instrument, before);
        return [{ mass: before - toSI(scale.after), u: Math.SQRT2 * u }];
      });
      if (drawn.length === 0) return [];
      return [
        {
          name: vessel.name,
          delivered: drawn.reduce((sum, { mass }) => sum + mass, 0),
          u: Math.hypot(...drawn.map(({ u }) => u)),
          emptied: ofType(standing, "vessel-found-empty").some(
            ({ body }) => body.vessel === vessel.id,
          ),
          residue: residueOf(vessel),
        },
      ];
    });
}

/** From this part by mass on an identifier's answer settles what a can declares: its practice, from memory. */
const SETTLED = 98;

/** Everything of a trial that speaks for or against a product's claims. */
export function claimContext(
  view: TrialView,
  product: ProductView,
  {
    fair,
    identified,
  }: { readonly fair: readonly ClaimEffect[]; readonly identified?: KnownSubstance | undefined },
): ClaimContext {
  const standing = view.entries.filter(({ withdrawn }) => !withdrawn);
  const substance = identified ?? knownSubstance(product.fluid);
  const tests = testsOf(view, product.id);
  const settled = tests.some(({ parts }) =>
    parts?.some((part) => part.substance === product.fluid && part.percent >= SETTLED),
  );
  return {
    product: {
      name: product.name,
      substance,
      identity: !substance ? "unknown" : identified || settled ? "identified" : "declared",
      labelMass: product.labelMass,
      flammableMark: product.flammableMark,
    },
    reference: knownSubstance(view.vehicle?.labelRefrigerant),
    effects: [...fair, ...measuredEffects(view, product.id)],
    cans: weighedCans(view, standing, product.id),
    tests,
    find: knownSubstance,
  };
}
