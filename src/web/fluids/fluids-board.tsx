import { findCalculation } from "../../calculations/index.ts";
import type { PairReading } from "../../report/index.ts";
import { Segments } from "../fields/segments.tsx";
import { useAnswers } from "../engine/use-answers.ts";
import { prefer, preferences } from "../shell/preferences.ts";
import { AirPart } from "./air-part.tsx";
import { AtPoint } from "./at-point.tsx";
import { BoilingChart } from "./boiling-chart.tsx";
import { BurnsAndWarms } from "./burns.tsx";
import { ChooseSubstance } from "./choose-substance.tsx";
import { chosen } from "./chosen.ts";
import { DomeChart } from "./dome-chart.tsx";
import { issueOf } from "./fields.tsx";
import { fluidUnits } from "./fluid-units.ts";
import { VesselPart } from "./vessel-part.tsx";

interface Props {
  /** Chosen before anybody chose. */
  readonly initial: string;
  /** Altitude or barometer, as calculations take it. */
  readonly air: Readonly<Record<string, unknown>>;
  /** Local air pressure, Pa. */
  readonly atmosphere: number;
  readonly readings: readonly PairReading[];
}

/** Everything about one fluid or blend: numbers on the left, pictures on the right. */
export function FluidsBoard({ initial, air, atmosphere, readings }: Props) {
  const substance = chosen(initial);
  const units = fluidUnits(atmosphere);
  const { answers } = useAnswers(
    substance ? [{ name: "flammability", input: substance.input }] : [],
  );
  return (
    <div class="fluids">
      <div class="fluids-asks">
        <section class="sheet">
          <ChooseSubstance initial={initial} issue={issueOf(answers[0], "fluid", "blend")} />
          <Segments
            name="fluids-units"
            label="Units"
            value={preferences.value.system}
            options={[
              { value: "us", label: "US" },
              { value: "si", label: "SI" },
            ]}
            onChange={(value) => {
              prefer({ system: value === "us" ? "us" : "si", units: {} });
            }}
          />
        </section>
        {substance && (
          <>
            <AtPoint substance={substance} air={air} units={units} />
            <BurnsAndWarms substance={substance} />
          </>
        )}
      </div>
      <div class="fluids-shows">
        {!substance && (
          <p class="empty">Choose each part and type its per cent. The charts follow.</p>
        )}
        {substance && (
          <>
            <BoilingChart substance={substance} units={units} readings={readings} />
            <DomeChart substance={substance} units={units} />
            {findCalculation("vessel") && (
              <VesselPart substance={substance} air={air} units={units} />
            )}
            {findCalculation("air-in-system") && (
              <AirPart substance={substance} air={air} units={units} />
            )}
          </>
        )}
      </div>
    </div>
  );
}
