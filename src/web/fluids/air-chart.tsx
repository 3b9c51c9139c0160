import type { Answer } from "../../calculations/index.ts";
import {
  PressureTemperatureChart,
  type PressureTemperatureProps,
  pressureTemperatureTable,
} from "../../report/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import { lineOf, sweepJobs } from "./boiling-lines.ts";
import type { Chosen } from "./chosen.ts";
import type { FluidUnits } from "./fluid-units.ts";
import type { AirInside } from "./results.ts";
import { noteWith } from "./said.tsx";

interface Props {
  readonly substance: Chosen;
  readonly gas: "air" | "nitrogen";
  readonly found: AirInside;
  readonly answer: Answer | undefined;
  readonly units: FluidUnits;
}

/** What a gauge shows with the gas inside, beside the line of the refrigerant alone. */
export function AirChart({ substance, gas, found, answer, units }: Props) {
  const sweep = useAnswers(sweepJobs(substance));
  const line = lineOf(substance.name, sweep.answers);
  if (!line) return null;
  const u = relativeDoubt(answer, found) ?? 0;
  const props: Omit<PressureTemperatureProps, "width"> = {
    id: "fluid-air",
    title: titleOf(gas, found, units, u),
    shownT: units.T,
    shownP: units.gauge,
    lines: [line],
    readings: found.points.map(({ T, p }) => ({
      name: `with ${gas}`,
      T: { value: T, u: 0 },
      p: { value: p, u: u * p },
    })),
  };
  return (
    <PictureSheet
      title={props.title}
      note={noteWith(
        "Coldproof. Equilibrium of refrigerant and gas in the vessel; whiskers: 95 %.",
        [answer],
      )}
      table={pressureTemperatureTable({ ...props, width: 0 })}
      draw={(width, height) => (
        <PressureTemperatureChart
          {...props}
          width={width}
          {...(height !== undefined && { height })}
        />
      )}
    />
  );
}

function titleOf(
  gas: string,
  { points }: AirInside,
  { T, dP, gauge }: FluidUnits,
  u: number,
): string {
  const [first, second] = points;
  if (!first) return "";
  const adds = `At ${T.nominal(first.T)} the ${gas} adds ${dP.text(first.excess, u * first.p).replace("+", "")}`;
  if (!second) return adds;
  return `${adds}, at ${T.nominal(second.T)} ${dP.text(second.excess, u * second.p).replace("+", "")}; the refrigerant alone goes from ${gauge.text(first.without, u * first.without)} to ${gauge.text(second.without, u * second.without)}`;
}

/** The answer's uncertainty belongs to its first point; the second is off by the same part. */
export function relativeDoubt(answer: Answer | undefined, found: AirInside | undefined) {
  const [first] = found?.points ?? [];
  const u = answer?.kind === "answer" ? answer.uncertainty?.["p"] : undefined;
  return u === undefined || !first ? undefined : u / first.p;
}
