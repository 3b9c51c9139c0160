import { scaleLinear } from "d3-scale";
import { type Ledger, lostAccount, unaccountedAccount } from "../../trial/index.ts";
import { COVERAGE_95, type Shown } from "../shown.ts";
import { HorizontalAxis } from "./axis.tsx";
import { atStep, type Flow, flowsOf, type Lane, lanesOf } from "./mass-flows.ts";
import { MassRow, ROW, rowHeight, type RowState } from "./mass-row.tsx";
import { Picture, type PictureTable } from "./picture.tsx";
import { Fillings, fillingsOf } from "./substance-pattern.tsx";
import { px } from "./text-room.ts";

export interface MassColumnsProps {
  readonly id: string;
  readonly title: string;
  readonly ledger: Ledger;
  /** The step to show, by its entry; the end of the log when absent. */
  readonly step?: string;
  readonly shown: Shown;
  readonly width: number;
}

const LANE = 17;
const AXIS = 26;
/** More of the width than this the lines may not take: names and columns would be cut. */
const MOST_GUTTER = 0.45;

/** Vessels as columns of one scale, lying down so that their names can be read on a phone. */
export function MassColumns(props: MassColumnsProps) {
  const { id, title, ledger, width } = props;
  const rows = rowStates(props);
  const lanes = lanesThatFit(props, rows);
  const gutter = gutterOf(lanes);
  const tops = topsOf(rows);
  const floor = tops.at(-1) ?? 0;
  const scale = massScale(props, rows, width - gutter);
  return (
    <Picture
      kind="mass"
      below={<FlowList props={props} />}
      id={id}
      title={title}
      description={massDescription(props)}
      width={width}
      height={floor + AXIS}
    >
      <Fillings id={id} />
      <HorizontalAxis
        scale={scale}
        y={floor}
        right={width - gutter + 8}
        unit={props.shown.label}
        gridTo={0}
      />
      {rows.map((row, i) => (
        <MassRow
          key={row.account.id}
          id={id}
          row={row}
          y={tops[i] ?? 0}
          right={width - gutter}
          scale={scale}
          shown={props.shown}
          fillings={fillingsOf(ledger)}
        />
      ))}
      {lanes.map((lane, i) => (
        <LaneLine key={i} lane={lane} number={i + 1} x={width - gutter + 6} tops={tops} />
      ))}
    </Picture>
  );
}

function rowStates({ ledger, step }: MassColumnsProps): RowState[] {
  const { masses, before } = atStep(ledger, step);
  return ledger.accounts.map((account) => {
    const was = before?.get(account.id);
    return {
      account,
      mass: masses.get(account.id) ?? 0,
      ...(was !== undefined && { before: was }),
      ...(step === undefined && { contents: account.contents, u: account.mass.u }),
    };
  });
}

const lanesAt = ({ ledger, step }: MassColumnsProps, rows: readonly RowState[]): Lane[] =>
  lanesOf(
    flowsOf(atStep(ledger, step).made),
    new Map(rows.map(({ account }, i) => [account.id, i])),
  );

const gutterOf = (lanes: readonly Lane[]): number =>
  lanes.length === 0 ? 8 : 22 + LANE * Math.max(...lanes.map(({ lane }) => lane + 1));

/** On a narrow screen many lines leave no room for what they join: the list below then tells them alone. */
function lanesThatFit(props: MassColumnsProps, rows: readonly RowState[]): Lane[] {
  const lanes = lanesAt(props, rows);
  return gutterOf(lanes) > MOST_GUTTER * props.width ? [] : lanes;
}

function massScale({ ledger, shown }: MassColumnsProps, rows: readonly RowState[], right: number) {
  const ends = rows.flatMap(({ mass, u = 0 }) => [mass - COVERAGE_95 * u, mass + COVERAGE_95 * u]);
  const low = Math.min(0, ...ends);
  const high = Math.max(ledger.largest, ...ends) || 1;
  return scaleLinear()
    .domain([shown.value(low), shown.value(high)])
    .range([5, right - 4]);
}

/** Upper edges of the rows, and the lower edge of the last. */
const topsOf = (rows: readonly RowState[]): number[] =>
  rows.reduce<number[]>((tops, row) => [...tops, (tops.at(-1) ?? 0) + rowHeight(row)], [0]);

/** From the bar it leaves, around in its lane, to the bar it enters; a number names it in the list below. */
function LaneLine({
  lane: { flow, fromRow, toRow, lane },
  number,
  x,
  tops,
}: {
  lane: Lane;
  number: number;
  x: number;
  tops: readonly number[];
}) {
  const bar = (row: number): number => (tops[row] ?? 0) + ROW.bar + ROW.thick / 2;
  const down = toRow > fromRow;
  // Leaves on the near half of the bar and enters on the far half, so that two ways do not run together.
  const y1 = bar(fromRow) + (down ? 4 : -4);
  const y2 = bar(toRow) + (down ? -4 : 4);
  const edge = x + 12 + lane * LANE;
  const middle = (y1 + y2) / 2;
  const kind =
    flow.to === lostAccount ? "lost" : flow.to === unaccountedAccount ? "unaccounted" : "moved";
  return (
    <g class={`pic-flow pic-flow-${kind}`}>
      <path d={`M${px(x)} ${px(y1)}H${px(edge)}V${px(y2)}H${px(x + 5)}`} />
      <path class="pic-arrow" d={`M${px(x)} ${px(y2)}l7 -4v8Z`} />
      <circle cx={px(edge)} cy={px(middle)} r="7.5" />
      <text x={px(edge)} y={px(middle + 4)} font-size="12" text-anchor="middle">
        {number}
      </text>
    </g>
  );
}

const nameOf = (ledger: Ledger, id: string): string =>
  ledger.accounts.find((account) => account.id === id)?.name ?? id;

const flowText = ({ ledger, shown }: MassColumnsProps, flow: Flow): string =>
  `${nameOf(ledger, flow.from)} → ${nameOf(ledger, flow.to)}`.concat(
    " ",
    shown.pair({ value: flow.mass, u: Math.sqrt(flow.u2) }),
  );

function FlowList({ props }: { props: MassColumnsProps }) {
  const flows = flowsOf(atStep(props.ledger, props.step).made);
  if (flows.length === 0) return null;
  return (
    <ol class="pic-flows">
      {flows.map((flow, i) => (
        <li key={i}>
          <span>
            {nameOf(props.ledger, flow.from)} → {nameOf(props.ledger, flow.to)}
          </span>{" "}
          <span class="number">
            {props.shown.pair({ value: flow.mass, u: Math.sqrt(flow.u2) })}
          </span>
        </li>
      ))}
    </ol>
  );
}

export function massDescription(props: MassColumnsProps): string {
  const { ledger, shown, step } = props;
  const holds = rowStates(props).map(
    ({ account, mass, u }) =>
      `${account.name}: ${u === undefined ? shown.text(mass) : shown.pair({ value: mass, u })}`,
  );
  const flows = flowsOf(atStep(ledger, step).made).map((flow) => flowText(props, flow));
  const moved = flows.length === 0 ? "Nothing was moved." : `Moved: ${flows.join("; ")}.`;
  return `All to one scale. ${holds.join("; ")}. ${moved}`;
}

/** What every account holds, as a table. */
export function massTable(props: MassColumnsProps): PictureTable {
  const { shown } = props;
  return {
    caption: props.title,
    head: ["Account", "Before", "Now", "Contents"],
    rows: rowStates(props).map(({ account, mass, u, before, contents }) => [
      account.name,
      before === undefined ? "–" : shown.text(before),
      u === undefined ? shown.text(mass) : shown.pair({ value: mass, u }),
      (contents ?? []).map((one) => `${one.name} ${shown.pair(one.mass)}`).join(", ") || "–",
    ]),
  };
}
