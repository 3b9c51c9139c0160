import type { Answer } from "../../calculations/index.ts";
import type { Job } from "../engine/batch.ts";
import { FluidQuantity, issueOf, type QuantitySpec, typedQuantity } from "./fields.tsx";
import { NoAnswer } from "./said.tsx";

const temperature = { dimension: "temperature", usual: { us: "°F", si: "°C" } } as const;
const pressure = { dimension: "pressure", usual: { us: "psig", si: "bar(g)" } } as const;

const loopSpecs = {
  low: { name: "loop-low", label: "Low side", ...pressure },
  high: { name: "loop-high", label: "High side", ...pressure },
  suction: { name: "loop-suction", label: "Suction line", ...temperature },
  liquid: { name: "loop-liquid", label: "Liquid line", ...temperature },
  discharge: { name: "loop-discharge", label: "Discharge line", ...temperature },
} as const satisfies Record<string, QuantitySpec>;

const stateSpecs = {
  T: { name: "state-T", label: "Temperature of the state", ...temperature },
  p: { name: "state-p", label: "Pressure of the state", ...pressure },
} as const satisfies Record<string, QuantitySpec>;

type Input = Readonly<Record<string, unknown>>;

/** The loop as a request; none while a field is empty. */
export function loopJobs(base: Input): Job[] {
  const { low, high, suction, liquid, discharge } = loopSpecs;
  const given = {
    low: typedQuantity(low),
    high: typedQuantity(high),
    suction: typedQuantity(suction),
    liquid: typedQuantity(liquid),
  };
  if (Object.values(given).includes(undefined)) return [];
  const hot = typedQuantity(discharge);
  return [
    {
      name: "cycle",
      input: { ...base, ...given, ...(hot !== undefined && { discharge: hot }) },
    },
  ];
}

/** The single state as a request; none while a field is empty. */
export function stateJobs(base: Input): Job[] {
  const [T, p] = [typedQuantity(stateSpecs.T), typedQuantity(stateSpecs.p)];
  return T === undefined || p === undefined ? [] : [{ name: "state", input: { ...base, T, p } }];
}

interface Props {
  readonly loop: Answer | undefined;
  readonly state: Answer | undefined;
}

/** What is to be marked in the chart. */
export function LoopFields({ loop, state }: Props) {
  const { low, high, suction, liquid, discharge } = loopSpecs;
  return (
    <details>
      <summary>Mark a loop or a state in the chart</summary>
      <div class="loop-fields">
        <p class="quiet">
          A loop takes both pressures and the temperatures of the suction and liquid lines.
        </p>
        <div class="field-row">
          <FluidQuantity spec={low} issue={issueOf(loop, "low")} />
          <FluidQuantity spec={high} issue={issueOf(loop, "high")} />
          <FluidQuantity spec={suction} issue={issueOf(loop, "suction")} />
          <FluidQuantity spec={liquid} issue={issueOf(loop, "liquid")} />
          <FluidQuantity spec={discharge} optional issue={issueOf(loop, "discharge")} />
        </div>
        <NoAnswer answer={loop} />
        <div class="field-row">
          <FluidQuantity spec={stateSpecs.T} issue={issueOf(state, "T")} />
          <FluidQuantity spec={stateSpecs.p} issue={issueOf(state, "p")} />
        </div>
        <NoAnswer answer={state} />
      </div>
    </details>
  );
}
