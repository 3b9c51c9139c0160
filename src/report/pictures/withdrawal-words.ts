import { compositionText } from "./composition.ts";
import { thinned } from "./phase-points.ts";
import type { PictureTable } from "./picture.tsx";
import type { Withdrawal, WithdrawalChartProps, WithdrawalStep } from "./withdrawal-props.ts";

const waySentences = {
  top: "Vapour taken from the top (full lines)",
  bottom: "Liquid taken from the bottom (broken lines)",
} as const;

/** The chart in a few sentences: for those who hear it. */
export function withdrawalDescription(props: WithdrawalChartProps): string {
  const { ways, shownP, shownMass } = props;
  const said = ({ mass, p, left }: WithdrawalStep): string =>
    `${shownP.text(p)} with ${shownMass.text(mass)} left (${compositionText(left)})`;
  const wayText = ({ from, steps }: Withdrawal): string => {
    const [first, last] = [steps[0], steps.at(-1)];
    return first && last
      ? `${waySentences[from]}: ${said(first)}, then ${said(last)}.`
      : `${waySentences[from]}: nothing comes out.`;
  };
  return `Against the mass that is left. ${ways.map(wayText).join(" ")}`;
}

/** Moments of each way that are worth reading. */
const ROWS = 8;

/** The numbers behind the chart, what comes out among them. */
export function withdrawalTable(props: WithdrawalChartProps): PictureTable {
  const { ways, shownP, shownMass } = props;
  return {
    caption: props.title,
    head: ["Taken out", "Left", "Pressure", "What is left", "What comes out"],
    rows: ways.flatMap(({ from, steps }) =>
      thinned(steps, ROWS).map(({ mass, p, left, out }) => [
        from === "top" ? "vapour" : "liquid",
        shownMass.text(mass),
        shownP.text(p),
        compositionText(left),
        out ? compositionText(out) : "–",
      ]),
    ),
  };
}
