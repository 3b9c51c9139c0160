import type { ComponentChildren } from "preact";
import type { PairReading } from "../../report/index.ts";
import { Segments } from "../fields/segments.tsx";
import { useAnswers } from "../engine/use-answers.ts";
import { prefer, preferences } from "../shell/preferences.ts";
import { AirPart } from "./air-part.tsx";
import { AtPoint } from "./at-point.tsx";
import { BoilingChart } from "./boiling-chart.tsx";
import { BurnsAndWarms, FlameLine } from "./burns.tsx";
import { ChooseSubstance } from "./choose-substance.tsx";
import { chosen } from "./chosen.ts";
import { DomeChart } from "./dome-chart.tsx";
import { issueOf } from "./fields.tsx";
import { Part, PartList } from "./fluid-parts.tsx";
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
  /** Where gauges count from, if the page can be told. */
  readonly children?: ComponentChildren;
}

/** Everything about one fluid or blend: one part at a time on a phone, numbers beside pictures at a desk. */
export function FluidsBoard({ initial, air, atmosphere, readings, children }: Props) {
  const substance = chosen(initial);
  const units = fluidUnits(atmosphere);
  const { answers } = useAnswers(
    substance ? [{ name: "flammability", input: substance.input }] : [],
  );
  const issue = issueOf(answers[0], "fluid", "blend");
  const usable = substance !== undefined && answers[0]?.kind !== "invalid";
  const shared = { air, units };
  return (
    <div class="fluids">
      <section class="sheet fluids-choice">
        <ChooseSubstance initial={initial} issue={substance && issue} />
        {usable && <FlameLine answer={answers[0]} />}
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
        {children}
      </section>
      {!usable && (
        <p class="empty fluids-shows">
          Choose each part and type its per cent, 100 in all. The numbers and charts follow.
        </p>
      )}
      {usable && (
        <>
          <PartList />
          <div class="fluids-asks">
            <Part name="numbers">
              <AtPoint substance={substance} {...shared} />
            </Part>
            <Part name="safety">
              <BurnsAndWarms substance={substance} />
            </Part>
          </div>
          <div class="fluids-shows">
            <Part name="charts">
              <BoilingChart substance={substance} units={units} readings={readings} />
              <DomeChart substance={substance} {...shared} />
            </Part>
            <Part name="vessel">
              <VesselPart substance={substance} {...shared} />
            </Part>
            <Part name="air">
              <AirPart substance={substance} {...shared} />
            </Part>
          </div>
        </>
      )}
    </div>
  );
}
