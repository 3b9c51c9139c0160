import { BandScale, DataTable, type UnitChoice } from "../../report/index.ts";
import type { ChargeMethod, ChargingFinding } from "../../trial/index.ts";
import { Figure, Figures } from "../fluids/said.tsx";
import { Fit } from "../look/fit.tsx";
import { Fold } from "../look/fold.tsx";

export interface ChargingProps {
  readonly finding: ChargingFinding;
  readonly units: UnitChoice;
}

const methods: Readonly<Record<ChargeMethod, string>> = {
  "vehicle-optimum": "Model of the vehicle: same reserve in receiver or accumulator",
  "internal-volume": "Same liquid level in the resting system, vapour counted",
  "liquid-at-condensing": "Same liquid volume at 50 °C",
  "liquid-at-ambient": "Same liquid volume at the shop’s temperature",
};

/** The target by every method, the claim beside it, and how exactly it has to be met. */
export function TargetPart({ finding, units }: ChargingProps) {
  const { plan, product, label, labelCharge, scales, assumed } = finding;
  const { chosen, range, tolerance, claimed } = plan;
  const mass = units.thing("small-mass");
  const scaleNeed = `A scale good to ${mass.text(tolerance.scaleLimit, tolerance.scaleLimit / 2)} settles it.`;
  return (
    <section class="sheet service-sheet" aria-labelledby="target">
      <h2 id="target">How much of {product}?</h2>
      <Figures>
        <Figure
          label="Target"
          value={mass.text(chosen.mass)}
          small={`${(100 * chosen.ratio).toFixed(0)} % of the label’s ${mass.text(labelCharge)} of ${label}; the methods reach from ${mass.text(range.from)} to ${mass.text(range.to)}`}
        />
      </Figures>
      <Charged finding={finding} units={units} />
      {plan.modelApart && (
        <p class="told">
          The model’s optimum lies far from what the densities say: its expansion device is made for
          another flow. It is not used as the target.
        </p>
      )}
      <p>
        Meet it within ± {mass.text(tolerance.tolerance, tolerance.tolerance / 2)}. {scaleNeed}{" "}
        {scales.map(
          ({ name, limit, fine }) =>
            `${name} (± ${mass.text(limit, limit / 2)}) ${fine ? "is fine enough" : "is too coarse for this"}. `,
        )}
      </p>
      <p class="quiet">
        A mass for a refrigerant that is not on the label is a model’s figure, not permission to
        charge it.
      </p>
      <Fold row title="Where the target is from">
        <DataTable
          caption="Target by method, the one used first"
          head={["Method", "Mass", "Of the label"]}
          rows={[chosen, ...plan.masses.filter((one) => one !== chosen)].map((one) => [
            methods[one.method],
            one.range && one.range.to - one.range.from > 1e-3
              ? `${mass.text(one.mass)} (${mass.text(one.range.from)} to ${mass.text(one.range.to)} with the weather)`
              : mass.text(one.mass),
            `${(100 * one.ratio).toFixed(0)} %`,
          ])}
        />
        <p>
          By equal liquid volume the target would be called {mass.text(claimed)} of {label}. That is
          what “equal ounces” on a label means; it is no measure of cooling, and no target here
          rests on it.
        </p>
        <p class="quiet">
          {assumed.length > 0 && `Taken for granted: ${assumed.join("; ")}. `}Source of ± 15 g: 40
          CFR 82 subpart B, appendix C 9.1; in proportion below 500 g (a choice, no source).
        </p>
      </Fold>
    </section>
  );
}

/** What went in so far, against the target. */
function Charged({ finding, units }: ChargingProps) {
  const { charged, plan } = finding;
  const { from, to } = plan.tolerance;
  if (!charged) return null;
  const spread = 2 * charged.u;
  const kind =
    charged.value - spread > to
      ? "higher"
      : charged.value + spread < from
        ? "lower"
        : charged.value - spread >= from && charged.value + spread <= to
          ? "within"
          : "undecided";
  const word = {
    within: "on target",
    higher: "too much",
    lower: "not yet",
    undecided: "within the scale’s error",
  }[kind];
  return (
    <Fit>
      {(width) => (
        <BandScale
          id="charged"
          title="In the vehicle from this round"
          shown={units.thing("small-mass")}
          band={{ from, to, expected: plan.chosen.mass }}
          bandName="target"
          reading={charged}
          verdict={{ kind, word }}
          width={width}
        />
      )}
    </Fit>
  );
}
