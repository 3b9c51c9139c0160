import {
  shownIn,
  type Withdrawal,
  WithdrawalChart,
  type WithdrawalChartProps,
  withdrawalTable,
} from "../../report/index.ts";
import type { Job } from "../engine/batch.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import type { Chosen } from "./chosen.ts";
import { unitOfSpec } from "./fields.tsx";
import type { FluidUnits } from "./fluid-units.ts";
import { type WithdrawalSeries, resultOf } from "./results.ts";
import { Basis, CannotCompute, NoAnswer, noteWith } from "./said.tsx";
import { sharesOf, vesselSpecs } from "./vessel-fields.ts";

interface Props {
  readonly substance: Chosen;
  readonly vessel: Readonly<Record<string, string>>;
  readonly air: Readonly<Record<string, unknown>>;
  readonly units: FluidUnits;
  /** Cautions that stand above already. */
  readonly said: readonly string[];
}

/** The same vessel, emptied from its top and from its bottom. */
export function EmptyingPart({ substance, vessel, air, units, said }: Props) {
  const job = (from: "top" | "bottom"): Job => ({
    name: "withdraw",
    input: { ...substance.input, ...air, ...vessel, from },
  });
  const { answers, failed } = useAnswers([job("top"), job("bottom")]);
  const series = answers.flatMap((answer) => resultOf("withdraw", answer) ?? []);
  const ways = series.map(wayOf);
  const props: Omit<WithdrawalChartProps, "width"> = {
    id: "fluid-emptying",
    title: titleOf(substance, ways, units),
    shownP: units.gauge,
    shownMass: shownIn(unitOfSpec(vesselSpecs.mass)),
    ways,
  };
  return (
    <>
      <h3>As it is emptied</h3>
      <CannotCompute failed={failed} />
      <NoAnswer answer={answers[0]} />
      {ways.length === 2 ? (
        <PictureSheet
          title={props.title}
          note={noteWith(
            "Coldproof. Withdrawal at constant temperature, phases in equilibrium (Rayleigh, 1902).",
            answers,
          )}
          table={withdrawalTable({ ...props, width: 0 })}
          draw={(width, height) => (
            <WithdrawalChart {...props} width={width} {...(height !== undefined && { height })} />
          )}
        />
      ) : (
        <p class="quiet" role="status">
          Working out how it empties…
        </p>
      )}
      {series.map(({ from, ended }) => ended !== undefined && <p key={from}>{ended}</p>)}
      <Basis answers={answers} without={said} />
    </>
  );
}

const wayOf = ({ from, points }: WithdrawalSeries): Withdrawal => ({
  from,
  steps: points.map(({ left, p, leaving, remaining }) => ({
    mass: left,
    p,
    left: sharesOf(remaining),
    out: sharesOf(leaving),
  })),
});

/** Which component moves most when vapour is taken, and what that means for the hand on the valve. */
function titleOf(
  { name, pure }: Chosen,
  [top]: readonly Withdrawal[],
  { gauge }: FluidUnits,
): string {
  const [first, last] = [top?.steps[0], top?.steps.at(-1)];
  if (!first || !last) return name;
  if (pure) {
    return `The gauge stays at ${gauge.text(first.p)} until the last liquid ${name} is gone: pressure does not tell how much is left`;
  }
  const moved = first.left
    .map(({ name: fluid, fraction }) => ({
      fluid,
      from: fraction,
      to: last.left.find((one) => one.name === fluid)?.fraction ?? 0,
    }))
    .sort((a, b) => Math.abs(b.to - b.from) - Math.abs(a.to - a.from))[0];
  if (!moved) return name;
  const percent = (fraction: number): string => `${(100 * fraction).toFixed(0)} %`;
  return Math.abs(moved.to - moved.from) < 0.01
    ? `${name} hardly changes as it is emptied: an azeotrope at this temperature`
    : `Charge ${name} as liquid: taken as vapour, ${moved.fluid} in what is left goes from ${percent(moved.from)} to ${percent(moved.to)}`;
}
