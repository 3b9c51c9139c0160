import { scaleLinear } from "d3-scale";
import { HorizontalAxis } from "./axis.tsx";
import { Picture } from "./picture.tsx";
import type { Withdrawal, WithdrawalChartProps } from "./withdrawal-props.ts";
import { withdrawalDescription } from "./withdrawal-words.ts";
import { type PanelLine, WithdrawalPanel } from "./withdrawal-panel.tsx";

/** How a way of emptying is called beside its line. */
export const wayNames = { top: "vapour", bottom: "liquid" } as const;

const LEFT = 40;
const GAP = 34;
const TOP = 26;
const FOOT = 24;

/** Pressure and contents of a vessel as it is emptied, from the top and from the bottom. */
export function WithdrawalChart(props: WithdrawalChartProps) {
  const { id, title, width, shownP, shownMass, ways } = props;
  const names = ways[0]?.steps[0]?.left.map(({ name }) => name) ?? [];
  const changing = names.length > 1 ? names : [];
  const panels = changing.length > 0 ? 2 : 1;
  const height =
    props.height ?? TOP + FOOT + panels * (width < 480 ? 150 : 190) + (panels - 1) * GAP;
  const tall = (height - TOP - FOOT - (panels - 1) * GAP) / panels;
  const right = width - (width < 480 ? 84 : 110);
  const full = Math.max(...ways.flatMap(({ steps }) => steps.map(({ mass }) => mass)), 0);
  const x = scaleLinear<number, number>()
    .domain([shownMass.value(full), 0])
    .range([LEFT, right]);
  const shared = { x, left: LEFT, right, edge: width, height: tall };
  return (
    <Picture
      kind="withdrawal"
      id={id}
      title={title}
      description={withdrawalDescription(props)}
      width={width}
      height={height}
    >
      <WithdrawalPanel
        {...shared}
        top={TOP}
        unit={shownP.label}
        lines={ways.map((way) => pressureLine(way, props))}
      />
      {panels === 2 && (
        <WithdrawalPanel
          {...shared}
          top={TOP + tall + GAP}
          unit="% by mass of what is left"
          lines={changing.flatMap((name, c) => ways.map((way) => shareLine(way, name, c, props)))}
          whole
        />
      )}
      <HorizontalAxis
        scale={x}
        y={height - FOOT}
        right={width}
        unit={`${shownMass.label} left`}
        gap={18}
      />
    </Picture>
  );
}

function pressureLine({ from, steps }: Withdrawal, props: WithdrawalChartProps) {
  const { shownMass, shownP } = props;
  const line: PanelLine = {
    name: `${wayNames[from]} out`,
    colour: "ink",
    broken: from === "bottom",
    points: steps.map(({ mass, p }) => ({ x: shownMass.value(mass), y: shownP.value(p) })),
  };
  return line;
}

function shareLine(
  { from, steps }: Withdrawal,
  name: string,
  c: number,
  props: WithdrawalChartProps,
) {
  const line: PanelLine = {
    name: from === "top" ? name : "",
    colour: (c % 5) + 1,
    broken: from === "bottom",
    points: steps.flatMap(({ mass, left }) => {
      const share = left.find((one) => one.name === name);
      return share && mass > 0 ? [{ x: props.shownMass.value(mass), y: share.fraction * 100 }] : [];
    }),
  };
  return line;
}
