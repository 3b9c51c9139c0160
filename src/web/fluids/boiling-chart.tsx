import type { Answer } from "../../calculations/index.ts";
import {
  type LinePoint,
  type PairReading,
  PressureTemperatureChart,
  type PressureTemperatureProps,
  pressureTemperatureTable,
  type SaturationLine,
} from "../../report/index.ts";
import type { Job } from "../engine/batch.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import { SubstancePick } from "./substance-pick.tsx";
import { type Chosen, chosenByName, OWN } from "./chosen.ts";
import { changeFluidDraft, fluidField } from "./fluid-draft.ts";
import type { FluidUnits } from "./fluid-units.ts";
import { isBlend, resultOf } from "./results.ts";
import { CannotCompute } from "./said.tsx";

/** From a winter's morning to a condenser in traffic, −20 to 70 °C, K. */
const GRID = Array.from({ length: 19 }, (_, i) => 253.15 + 5 * i);
/** Lines that one chart keeps apart. */
const MOST_LINES = 5;

const sweepJobs = ({ input }: Chosen): Job[] =>
  GRID.map((T) => ({ name: "saturation", input: { ...input, T } }));

interface DoubtedPoint extends LinePoint {
  /** Standard uncertainty of the pressure, Pa, where the answer has one. */
  readonly u?: number;
}

interface DoubtedLine extends SaturationLine {
  readonly bubble: readonly DoubtedPoint[];
  readonly dew?: readonly DoubtedPoint[];
}

/** Lines of a sweep: temperatures without boiling are left out. */
function lineOf(name: string, answers: readonly Answer[]): DoubtedLine | undefined {
  const bubble: DoubtedPoint[] = [];
  const dew: DoubtedPoint[] = [];
  for (const answer of answers) {
    const found = resultOf("saturation", answer);
    const doubt = answer.kind === "answer" ? (answer.uncertainty ?? {}) : {};
    const add = (line: DoubtedPoint[], { T, p }: LinePoint, u: number | undefined): number =>
      line.push({ T, p, ...(u !== undefined && { u }) });
    if (found && !isBlend(found)) add(bubble, found, undefined);
    if (found && isBlend(found)) {
      if (found.bubble) add(bubble, found.bubble, doubt["bubble.p"]);
      if (found.dew) add(dew, found.dew, doubt["dew.p"]);
    }
  }
  if (bubble.length + dew.length === 0) return undefined;
  return { name, bubble, ...(dew.length > 0 && { dew }) };
}

const comparedNames = (): string[] =>
  fluidField("compared")
    .split("|")
    .filter((name) => name !== "");

interface Props {
  readonly substance: Chosen;
  readonly units: FluidUnits;
  readonly readings: readonly PairReading[];
}

/** Pressure against temperature, other fluids beside it. */
export function BoilingChart({ substance, units, readings }: Props) {
  const others = comparedNames().filter((name) => name !== substance.name);
  const all = [substance, ...others.slice(0, MOST_LINES - 1).map(chosenByName)];
  const { answers, failed } = useAnswers(all.flatMap(sweepJobs));
  const lines = all.flatMap(
    (one, i) => lineOf(one.name, answers.slice(i * GRID.length, (i + 1) * GRID.length)) ?? [],
  );
  const props: Omit<PressureTemperatureProps, "width"> = {
    id: "fluid-boiling",
    title: titleOf(lines, units),
    shownT: units.T,
    shownP: units.gauge,
    lines,
    readings,
  };
  return (
    <section class="sheet" aria-labelledby="boiling">
      <h2 id="boiling">Pressure and temperature</h2>
      <CannotCompute failed={failed} />
      {lines.length === 0 ? (
        <p class="quiet" role="status">
          Working out the lines…
        </p>
      ) : (
        <PictureSheet
          title={props.title}
          note="Coldproof. Saturation from published equations of state; a full line where it begins to boil, a broken one where it begins to condense."
          table={pressureTemperatureTable({ ...props, width: 0 })}
          draw={(width, height) => (
            <PressureTemperatureChart
              {...props}
              width={width}
              {...(height !== undefined && { height })}
            />
          )}
        />
      )}
      <Compare substance={substance.name} others={others} />
    </section>
  );
}

/** Says what the lines show at a temperature that all of them have. */
function titleOf(lines: readonly DoubtedLine[], units: FluidUnits): string {
  const [own, ...others] = lines;
  if (!own) return "";
  const at = (line: DoubtedLine, T: number): DoubtedPoint | undefined =>
    line.bubble.find((point) => point.T === T);
  const T = GRID.findLast((one) => one <= 298.15 && lines.every((line) => at(line, one)));
  if (T === undefined) return `${own.name}: where it boils`;
  const text = (point: DoubtedPoint | undefined): string =>
    point ? units.gauge.text(point.p, point.u) : "";
  const dew = own.dew?.find((point) => point.T === T);
  if (others.length > 0) {
    const said = lines.map((line) => `${line.name} ${text(at(line, T))}`);
    return `At ${units.T.nominal(T)}: ${said.join(", ")}`;
  }
  const boils = `At ${units.T.nominal(T)} ${own.name} boils at ${text(at(own, T))}`;
  return dew ? `${boils} and condenses at ${text(dew)}` : boils;
}

function Compare({
  substance,
  others,
}: {
  readonly substance: string;
  readonly others: readonly string[];
}) {
  const set = (names: readonly string[]): void => {
    changeFluidDraft({ compared: names.join("|") });
  };
  return (
    <div class="compare-with">
      {others.length > 0 && (
        <ul class="compared">
          {others.map((name) => (
            <li key={name}>
              <button
                type="button"
                class="button"
                aria-label={`Take ${name} off the chart`}
                onClick={() => {
                  set(others.filter((one) => one !== name));
                }}
              >
                {name} <span aria-hidden="true">×</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {others.length < MOST_LINES - 1 && (
        <SubstancePick
          id="fluids-compare"
          label="Add a fluid to compare"
          value=""
          empty="Add a fluid to compare"
          without={[substance, OWN, ...others]}
          onChange={(name) => {
            if (name !== "") set([...others, name]);
          }}
        />
      )}
    </div>
  );
}
