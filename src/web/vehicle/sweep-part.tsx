import { SweepChart, type SweepChartProps, sweepTable } from "../../report/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import type { FieldDraft } from "../fields/field-draft.ts";
import { Segments } from "../fields/segments.tsx";
import { CannotCompute, NoAnswer } from "../fluids/said.tsx";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import { type BandPlace, bandJobs, bandsOf } from "./sweep-bands.ts";
import { STEPS, type SweepAxis, sweepAxes } from "./sweep-axes.ts";
import { findingOf, gapsOf, knownOf, linesOf } from "./sweep-lines.ts";
import { type SweepPlace, sweepOf } from "./vehicle-results.ts";
import type { VehicleUnits } from "./vehicle-units.ts";

interface Props {
  readonly draft: FieldDraft;
  readonly input: Readonly<Record<string, unknown>>;
  /** kg */
  readonly labelCharge: number;
  /** The typed place on each axis, SI. */
  readonly here: Readonly<Record<SweepAxis["name"], number | undefined>>;
  readonly units: VehicleUnits;
}

/** How the readings follow one condition, all others as typed. */
export function SweepPart({ draft, input, labelCharge, here, units }: Props) {
  const axes = sweepAxes(labelCharge, units);
  const axis = axes.find(({ name }) => name === draft.field("over", "ambient")) ?? axes[0];
  if (!axis) throw new RangeError("there is no condition to follow");
  const { name, from, to } = axis;
  const { answers, current, failed } = useAnswers([
    { name: "sweep", input: { ...input, over: name, from, to, steps: STEPS } },
  ]);
  const places = sweepOf(answers[0])?.points;
  const bands = useAnswers(bandJobs(input, axis));
  return (
    <section class="sheet" aria-labelledby="sweeps">
      <h2 id="sweeps">How the readings follow</h2>
      <Segments
        name="vehicle-over"
        label="Along which condition"
        value={name}
        options={axes.map((one) => ({ value: one.name, label: one.short }))}
        onChange={(over) => {
          draft.change({ over });
        }}
      />
      <CannotCompute failed={failed} />
      <NoAnswer answer={answers[0]} />
      {!places && !failed && answers.length === 0 && (
        <p class="quiet" role="status">
          Working out the lines…
        </p>
      )}
      {places && current && knownOf(places).length === 0 && (
        <div class="told">
          <p>Along the whole of it the system would not run.</p>
          {gapsOf(places).map(({ why }) => (
            <p key={why}>{why}</p>
          ))}
        </div>
      )}
      {places && current && knownOf(places).length > 0 && (
        <Chart
          axis={axis}
          places={places}
          bands={bands.current ? bandsOf(axis, bands.answers) : []}
          here={here[name]}
          units={units}
        />
      )}
      {"returnAir" in input && name === "ambient" && (
        <p class="quiet">Return air stays as typed; only the outside changes.</p>
      )}
    </section>
  );
}

interface ChartProps {
  readonly axis: SweepAxis;
  readonly places: readonly SweepPlace[];
  /** Empty while they are worked out: the lines do not wait for them. */
  readonly bands: readonly BandPlace[];
  readonly here: number | undefined;
  readonly units: VehicleUnits;
}

function Chart({ axis, places, bands, here, units }: ChartProps) {
  const props: Omit<SweepChartProps, "width"> = {
    id: "vehicle-sweep",
    title: findingOf(places, axis, units),
    over: { name: axis.label, shown: axis.shown },
    lines: linesOf(places, bands, units),
    gaps: gapsOf(places),
    ...(here !== undefined && { here }),
  };
  return (
    <PictureSheet
      title={props.title}
      note="Coldproof. Model of this kind of vehicle in steady running, not fitted to this one. Broken upright line: the conditions typed on the page."
      table={sweepTable({ ...props, width: 0 })}
      draw={(width, height) => (
        <SweepChart {...props} width={width} {...(height !== undefined && { height })} />
      )}
    />
  );
}
