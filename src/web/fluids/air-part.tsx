import { formatNumber } from "../../units/index.ts";
import { DataTable } from "../../report/index.ts";
import { Segments } from "../fields/segments.tsx";
import { useAnswers } from "../engine/use-answers.ts";
import { AirChart, relativeDoubt } from "./air-chart.tsx";
import type { Chosen } from "./chosen.ts";
import { FluidQuantity, issueOf, typedQuantity, unitOfSpec } from "./fields.tsx";
import { changeFluidDraft, fluidField } from "./fluid-draft.ts";
import type { FluidUnits } from "./fluid-units.ts";
import { resultOf } from "./results.ts";
import { Basis, CannotCompute, NoAnswer } from "./said.tsx";
import { startingFrom, typedVessel, vesselSpecs } from "./vessel-fields.ts";

interface Props {
  readonly substance: Chosen;
  readonly air: Readonly<Record<string, unknown>>;
  readonly units: FluidUnits;
}

/** The same vessel with some air or nitrogen in it, at two temperatures. */
export function AirPart({ substance, air, units }: Props) {
  const gas = fluidField("gas", "air") === "nitrogen" ? "nitrogen" : "air";
  const second = startingFrom(vesselSpecs.T2, unitOfSpec(vesselSpecs.T2));
  const vessel = typedVessel();
  const mass = typedQuantity(vesselSpecs.air);
  const T2 = typedQuantity(second);
  const { answers, current, failed } = useAnswers(
    vessel && mass !== undefined
      ? [
          {
            name: "air-in-system",
            input: {
              ...substance.input,
              ...air,
              ...vessel,
              air: mass,
              gas,
              ...(T2 !== undefined && { T2 }),
            },
          },
        ]
      : [],
  );
  const [answer] = answers;
  const found = resultOf("air-in-system", answer);
  const u = relativeDoubt(answer, found);
  return (
    <section class="sheet" aria-labelledby="air">
      <h2 id="air">Air in it?</h2>
      <p class="quiet">
        The vessel above, with a gas that does not condense. Its part of the pressure grows with
        temperature far less than the refrigerant’s: two readings, cold and warm, tell them apart.
      </p>
      <Segments
        name="fluids-gas"
        label="Which gas"
        value={gas}
        options={[
          { value: "air", label: "Air" },
          { value: "nitrogen", label: "Nitrogen" },
        ]}
        onChange={(value) => {
          changeFluidDraft({ gas: value });
        }}
      />
      <div class="field-row">
        <FluidQuantity spec={vesselSpecs.air} issue={issueOf(answer, "air")} />
        <FluidQuantity spec={second} optional issue={issueOf(answer, "T2")} />
      </div>
      <CannotCompute failed={failed} />
      <NoAnswer answer={answer} />
      {found && (
        <div class={current ? "" : "is-stale"}>
          <DataTable
            caption={`What the ${gas} adds`}
            head={["Temperature", "Gauge", `Without ${gas}`, "Added", `${gas} in the vapour`]}
            rows={found.points.map((point) => [
              units.T.text(point.T),
              u === undefined
                ? units.gauge.text(point.p)
                : units.gauge.pair({ value: point.p, u: u * point.p }),
              units.gauge.text(point.without, u && u * point.without),
              units.dP.text(point.excess, u && u * point.p),
              `${formatNumber(100 * point.inVapour, 1)} % by mole`,
            ])}
          />
        </div>
      )}
      {found && <AirChart {...{ substance, gas, found, answer, units }} />}
      <Basis answers={[answer]} />
    </section>
  );
}
