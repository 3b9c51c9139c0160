import {
  type PairReading,
  PressureTemperatureChart,
  type PressureTemperatureProps,
  pressureTemperatureTable,
} from "../../report/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import { SubstancePick } from "./substance-pick.tsx";
import { type DoubtedLine, type DoubtedPoint, GRID, lineOf, sweepJobs } from "./boiling-lines.ts";
import { type Chosen, chosenByName, OWN } from "./chosen.ts";
import { changeFluidDraft, fluidField } from "./fluid-draft.ts";
import type { FluidUnits } from "./fluid-units.ts";
import { Basis, CannotCompute, noteWith } from "./said.tsx";

/** Lines that one chart keeps apart. */
const MOST_LINES = 5;

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
          note={noteWith(
            "Coldproof. Saturation from published equations of state; a full line where it begins to boil, a broken one where it begins to condense.",
            answers,
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
      )}
      <Compare substance={substance.name} others={others} />
      <Basis answers={answers.filter((_, i) => i % GRID.length === 0)} />
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
