import { resultOf } from "./results.ts";
import { useEffect } from "preact/hooks";
import { useAnswers } from "../engine/use-answers.ts";
import { TopBar } from "../shell/top-bar.tsx";
import { FluidQuantity, issueOf, type QuantitySpec, typedQuantity } from "./fields.tsx";
import { startFluidDraft } from "./fluid-draft.ts";
import { FluidsBoard } from "./fluids-board.tsx";

const altitude: QuantitySpec = {
  name: "altitude",
  label: "Altitude of the shop",
  dimension: "length",
  usual: { us: "ft", si: "m" },
};

/** Air at sea level, Pa, until the calculations say what it is here. */
const SEA_LEVEL = 101_325;

/** Any fluid or blend, without a trial. */
export function FluidsPage() {
  useEffect(() => void startFluidDraft(), []);
  const given = typedQuantity(altitude);
  const air = given === undefined ? {} : { altitude: given };
  // A vacuum of nothing stands at the pressure of the local air.
  const { answers } = useAnswers([{ name: "water-boiling", input: { vacuum: 0, ...air } }]);
  const here = resultOf("water-boiling", answers[0]);
  const issue = issueOf(answers[0], "altitude");
  return (
    <>
      <TopBar title="Fluids and blends" />
      <main class="page" id="main">
        <h1 tabIndex={-1}>Fluids and blends</h1>
        <p class="lead">
          What a fluid does before anybody opens a valve. Pressure alone identifies nothing.
        </p>
        <FluidsBoard
          initial="R134a"
          air={issue === undefined ? air : {}}
          atmosphere={here?.p ?? SEA_LEVEL}
          readings={[]}
        >
          <details open={issue !== undefined}>
            <summary>{given === undefined ? "Gauges count from sea level" : "Altitude"}</summary>
            <FluidQuantity
              spec={altitude}
              optional
              hint="Gauges count from the local air; sea level unless told."
              issue={issue}
            />
          </details>
        </FluidsBoard>
      </main>
    </>
  );
}
