import { formatNumber } from "../../units/index.ts";
import {
  type CycleLine,
  type PiecedLine,
  PressureEnthalpyChart,
  type PressureEnthalpyProps,
  pressureEnthalpyTable,
} from "../../report/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import type { Chosen } from "./chosen.ts";
import type { FluidUnits } from "./fluid-units.ts";
import { LoopFields, loopJobs, stateJobs } from "./loop-fields.tsx";
import { type Loop, type PhaseDiagram, type StateFound, resultOf } from "./results.ts";
import { Basis, CannotCompute, Figure, Figures, noteWith } from "./said.tsx";

interface Props {
  readonly substance: Chosen;
  readonly air: Readonly<Record<string, unknown>>;
  readonly units: FluidUnits;
}

/** A heat to a tenth of its unit. */
const heatText = ({ h }: FluidUnits, value: number): string =>
  `${formatNumber(h.value(value), 1)} ${h.label}`;

/** Pressure against enthalpy, with a state and a loop where they are typed. */
export function DomeChart({ substance, air, units }: Props) {
  const base = { ...substance.input, ...air };
  const lines = useAnswers([{ name: "phase-diagram", input: substance.input }]);
  const marks = useAnswers([...loopJobs(base), ...stateJobs(base)]);
  const hasLoop = loopJobs(base).length > 0;
  const loopAnswer = hasLoop ? marks.answers[0] : undefined;
  const stateAnswer = hasLoop ? marks.answers[1] : marks.answers[0];
  const diagram = resultOf("phase-diagram", lines.answers[0]);
  const loop = marks.current ? resultOf("cycle", loopAnswer) : undefined;
  const state = marks.current ? resultOf("state", stateAnswer) : undefined;
  const props = diagram && domeProps({ substance, units, diagram, loop, state });
  return (
    <section class="sheet" aria-labelledby="dome">
      <h2 id="dome">Pressure and enthalpy</h2>
      <CannotCompute failed={lines.failed || marks.failed} />
      {props ? (
        <PictureSheet
          title={props.title}
          note={noteWith(
            "Coldproof. Published equations of state; enthalpy is 200 kJ/kg in liquid at 0 °C where the fluid has one. Lines in the dome: vapour fractions; thin lines: temperatures.",
            lines.answers,
          )}
          table={pressureEnthalpyTable({ ...props, width: 0 })}
          draw={(width, height) => (
            <PressureEnthalpyChart
              {...props}
              width={width}
              {...(height !== undefined && { height })}
            />
          )}
        />
      ) : (
        <p class="quiet" role="status">
          Working out the lines…
        </p>
      )}
      {loop && <LoopFigures loop={loop} units={units} />}
      <LoopFields loop={loopAnswer} state={stateAnswer} />
      <Basis answers={[lines.answers[0], loopAnswer]} />
    </section>
  );
}

function LoopFigures({ loop, units }: { readonly loop: Loop; readonly units: FluidUnits }) {
  const { cooling, work, cop, compression } = loop;
  if (cooling === null || work === null) return null;
  return (
    <Figures>
      <Figure label="Cooling" value={heatText(units, cooling)} />
      <Figure
        label="Work"
        value={heatText(units, work)}
        small={compression === "isentropic" ? "lossless compressor" : "as measured"}
      />
      {cop !== null && <Figure label="Cooling per work" value={cop.toFixed(1)} />}
    </Figures>
  );
}

interface DomeData {
  readonly substance: Chosen;
  readonly units: FluidUnits;
  readonly diagram: PhaseDiagram;
  readonly loop: Loop | undefined;
  readonly state: StateFound | undefined;
}

function domeProps(data: DomeData): Omit<PressureEnthalpyProps, "width"> {
  const { substance, units, diagram, loop, state } = data;
  const { critical, isotherms, fractions } = diagram;
  const [bubble, dew] = [pointsOf(diagram.bubble).flat(), pointsOf(diagram.dew).flat()];
  return {
    id: "fluid-dome",
    title: titleOf(data),
    shown: { p: units.absolute, h: units.h, T: units.T },
    bubble,
    dew,
    ...(critical && { critical }),
    qualities: fractions
      .filter(({ fraction }) => Math.abs((5 * fraction) % 1) < 1e-6 || fractions.length < 6)
      .map(({ fraction, line }) => ({ quality: fraction, line: pointsOf(line) })),
    basis: substance.pure ? "mass" : "mole",
    isotherms: isotherms.map(({ T, line }) => ({ T, line: pointsOf(line) })),
    states: state ? [{ name: "the state", T: state.T, p: state.p, h: state.h }] : [],
    cycles: loop ? [cycleOf(loop)] : [],
  };
}

const pointsOf = ({ pieces }: PhaseDiagram["bubble"]): PiecedLine =>
  pieces.map(({ T, p, h }) => T.map((each, i) => ({ T: each, p: p[i] ?? 0, h: h[i] ?? 0 })));

const cycleOf = ({ corners }: Loop): CycleLine => ({
  name: "Loop",
  points: corners,
  corners: corners.map(({ T, p, h }, i) => ({ name: String(i + 1), T, p, h })),
});

/** A shop's temperature, K. */
const USUAL = 297;

function titleOf({ substance: { name, pure }, units, diagram, loop }: DomeData): string {
  if (loop && (loop.cooling === null || loop.work === null)) {
    return `These readings are no working loop of ${name}`;
  }
  if (loop) {
    return `This loop of ${name} takes up ${heatText(units, loop.cooling ?? 0)} for ${heatText(units, loop.work ?? 0)} of work`;
  }
  const [bubble, dew] = [pointsOf(diagram.bubble).flat(), pointsOf(diagram.dew).flat()];
  const i = bubble.findIndex(({ T }) => T >= USUAL);
  const [liquid, vapour] = [bubble[i], dew[i]];
  if (pure && liquid && vapour) {
    return `Boiling ${name} at ${units.T.nominal(roundTo(liquid.T, units))} takes up ${heatText(units, vapour.h - liquid.h)}`;
  }
  return `Under the dome ${name} is liquid and vapour together, of two compositions`;
}

/** A temperature to the whole degree of its unit, K. */
const roundTo = (T: number, { T: shown }: FluidUnits): number => {
  const value = shown.value(T);
  const step = shown.value(T + 1) - value;
  return T + (Math.round(value) - value) / step;
};
