import type { Answer } from "../../calculations/index.ts";
import {
  type CycleLine,
  PressureEnthalpyChart,
  type PressureEnthalpyProps,
  pressureEnthalpyTable,
  type StatePoint,
} from "../../report/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import type { Chosen } from "../fluids/chosen.ts";
import { pointsOf } from "../fluids/dome-points.ts";
import { type PhaseDiagram, resultOf } from "../fluids/results.ts";
import { CannotCompute, noteWith } from "../fluids/said.tsx";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import type { CyclePoint } from "./vehicle-results.ts";
import type { VehicleUnits } from "./vehicle-units.ts";

export interface NamedCycle {
  readonly name: string;
  readonly cycle: readonly CyclePoint[];
  /** Drawn broken: beside the one that is whole. */
  readonly broken?: boolean;
}

interface Props {
  readonly id: string;
  readonly title: string;
  readonly substance: Chosen;
  readonly cycles: readonly NamedCycle[];
  readonly answer: Answer | undefined;
  readonly units: VehicleUnits;
}

/** Lowest pressure of the chart, as a part of the cycle's lowest. */
const LOWEST = 0.4;

/** Cycles of one fluid on its pressure–enthalpy chart. */
export function CycleSheet({ id, title, substance, cycles, answer, units }: Props) {
  const lines = useAnswers([{ name: "phase-diagram", input: substance.input }]);
  const diagram = lines.current ? resultOf("phase-diagram", lines.answers[0]) : undefined;
  if (!diagram) {
    return (
      <>
        <CannotCompute failed={lines.failed} />
        <p class="quiet" role="status">
          Working out the lines…
        </p>
      </>
    );
  }
  const { critical, isotherms, fractions } = diagram;
  // The dome goes down to a winter's night: the part well below the cycle would only make it small.
  const lowest = LOWEST * Math.min(...cycles.flatMap(({ cycle }) => cycle.map(({ p }) => p)));
  const inView = (line: PhaseDiagram["bubble"]): StatePoint[][] =>
    pointsOf(line).map((points) => points.filter(({ p }) => p >= lowest));
  const props: Omit<PressureEnthalpyProps, "width"> = {
    id,
    title,
    shown: { p: units.absolute, h: units.h, T: units.T },
    bubble: inView(diagram.bubble).flat(),
    dew: inView(diagram.dew).flat(),
    ...(critical && { critical }),
    qualities: fractions
      .filter(({ fraction }) => Math.abs((5 * fraction) % 1) < 1e-6 || fractions.length < 6)
      .map(({ fraction, line }) => ({ quality: fraction, line: inView(line) })),
    basis: substance.pure ? "mass" : "mole",
    isotherms: isotherms.map(({ T, line }) => ({ T, line: pointsOf(line) })),
    states: [],
    cycles: cycles.map(lineOf),
  };
  return (
    <PictureSheet
      title={title}
      note={noteWith(
        "Coldproof. Model of this kind of vehicle in steady running, not fitted to this one; published equations of state.",
        [...lines.answers, answer],
      )}
      table={pressureEnthalpyTable({ ...props, width: 0 })}
      draw={(width, height) => (
        <PressureEnthalpyChart {...props} width={width} {...(height !== undefined && { height })} />
      )}
    />
  );
}

/** Places that have a number: those at which a hand or a clamp could be. */
const numbered: Readonly<Record<string, string>> = {
  suction: "1",
  discharge: "2",
  "condenser-outlet": "3",
  "evaporator-inlet": "4",
};

const lineOf = ({ name, cycle, broken = false }: NamedCycle): CycleLine => ({
  name,
  broken,
  points: cycle,
  corners: cycle.flatMap(({ at, ...point }) => {
    const number = numbered[at];
    return number === undefined ? [] : [{ ...point, name: broken ? `${number}′` : number }];
  }),
});
