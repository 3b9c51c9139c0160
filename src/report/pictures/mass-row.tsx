import type { ScaleLinear } from "d3-scale";
import type { Account, Content, SubstanceKey } from "../../trial/index.ts";
import { COVERAGE_95, type Shown } from "../shown.ts";
import { fillingUrl } from "./substance-pattern.tsx";
import { cut, px, textWidth } from "./text-room.ts";

/** What a row shows: an account at the chosen moment. */
export interface RowState {
  readonly account: Account;
  readonly mass: number;
  readonly u?: number;
  readonly before?: number;
  /** Absent at an earlier step, for which only totals are kept. */
  readonly contents?: readonly Content[];
}

/** Heights inside a row: name, bar, total with what it is, and a line more for each further substance. */
export const ROW = { name: 13, bar: 20, thick: 22, inside: 62, line: 17, gap: 14 } as const;

export const rowHeight = ({ contents }: RowState): number =>
  ROW.inside + ROW.gap + ROW.line * (several(contents) ? (contents?.length ?? 0) : 0);

const several = (contents: readonly Content[] | undefined): boolean => (contents ?? []).length > 1;

interface MassRowProps {
  readonly id: string;
  readonly row: RowState;
  readonly y: number;
  readonly right: number;
  readonly scale: ScaleLinear<number, number>;
  readonly shown: Shown;
  readonly fillings: ReadonlyMap<SubstanceKey, number>;
}

/** Less than this would not be seen at all; what is lost has to be. */
const LEAST_BAR = 2;

export function MassRow(props: MassRowProps) {
  const { row, y, right } = props;
  return (
    <g class={`pic-row pic-row-${row.account.kind}`}>
      <text class="pic-name" x="0" y={y + ROW.name} font-size="13">
        {cut(row.account.name, 13, right)}
      </text>
      <Ghost {...props} />
      <Bar {...props} />
      <Inside {...props} />
    </g>
  );
}

/** What it held before: an empty outline behind the bar. */
function Ghost({ row, y, scale, shown }: MassRowProps) {
  if (row.before === undefined || Math.abs(row.before - row.mass) < 1e-9) return null;
  const [zero, end] = [scale(0), scale(shown.value(row.before))];
  return (
    <rect
      class="pic-before"
      x={px(Math.min(zero, end))}
      y={y + ROW.bar + 0.5}
      width={px(Math.abs(end - zero))}
      height={ROW.thick - 1}
    />
  );
}

/** Contents end to end from zero; one plain block where only the total is known. */
function Bar(props: MassRowProps) {
  const { row, y, scale, shown } = props;
  const zero = scale(0);
  const end = scale(shown.value(row.mass));
  const contents = drawable(row);
  const top = y + ROW.bar;
  return (
    <g>
      {contents ? (
        <Segments {...props} contents={contents} />
      ) : (
        Math.abs(row.mass) > 1e-9 && (
          <rect
            class="pic-bar pic-total"
            x={px(Math.min(zero, end))}
            y={top}
            width={px(Math.max(Math.abs(end - zero), LEAST_BAR))}
            height={ROW.thick}
          />
        )
      )}
      <line
        class="pic-axis-line"
        x1={px(zero)}
        x2={px(zero)}
        y1={top - 3}
        y2={top + ROW.thick + 3}
      />
      <Reach row={row} y={top + ROW.thick / 2} scale={scale} shown={shown} />
    </g>
  );
}

/** Contents that can stand end to end: all positive and known. */
function drawable({ contents, mass }: RowState): readonly Content[] | undefined {
  if (contents === undefined || contents.length === 0 || !(mass > 0)) return undefined;
  return contents.every((one) => one.mass.value >= 0) ? contents : undefined;
}

function Segments({
  contents,
  id,
  y,
  scale,
  shown,
  fillings,
}: MassRowProps & { contents: readonly Content[] }) {
  const starts = contents.map((_, i) =>
    contents.slice(0, i).reduce((sum, { mass }) => sum + mass.value, 0),
  );
  return (
    <>
      {contents.map(({ substance, mass }, i) => {
        const from = scale(shown.value(starts[i] ?? 0));
        const to = scale(shown.value((starts[i] ?? 0) + mass.value));
        return (
          <rect
            key={substance}
            class="pic-bar"
            fill={fillingUrl(id, fillings.get(substance) ?? 0)}
            x={px(from)}
            y={y + ROW.bar}
            width={px(Math.max(to - from, LEAST_BAR))}
            height={ROW.thick}
          />
        );
      })}
    </>
  );
}

/** 95 % reach of the total. */
function Reach({ row, y, scale, shown }: Pick<MassRowProps, "row" | "y" | "scale" | "shown">) {
  const half = COVERAGE_95 * (row.u ?? 0);
  const [a, b] = [scale(shown.value(row.mass - half)), scale(shown.value(row.mass + half))];
  if (!(b - a > 3)) return null;
  return (
    <path
      class="pic-whisker"
      d={`M${px(a)} ${y - 4}V${y + 4}M${px(a)} ${y}H${px(b)}M${px(b)} ${y - 4}V${y + 4}`}
    />
  );
}

const bases = { weighed: "weighed", declared: "declared", none: "" } as const;

/** The total, the substances behind swatches of their fillings, and what the mass rests on. */
function Inside(props: MassRowProps) {
  const { row, y, right, shown } = props;
  const total =
    row.u === undefined ? shown.text(row.mass) : shown.pair({ value: row.mass, u: row.u });
  const contents = row.contents ?? [];
  const words = bases[row.account.basis];
  const line = y + ROW.inside - 3;
  const beside = textWidth(total, 13) + 12;
  const [only] = contents;
  const label = (name: string): string => {
    const full = words === "" ? name : `${name}, ${words}`;
    return textWidth(full, 12) + 18 <= right - beside ? full : name;
  };
  return (
    <g class="pic-inside">
      <text class="pic-number" x="0" y={line} font-size="13">
        {total}
      </text>
      {several(contents)
        ? contents.map((one, i) => (
            <Swatch
              key={one.substance}
              {...props}
              substance={one.substance}
              text={`${one.name} ${shown.pair(one.mass)}`}
              x={0}
              line={line + ROW.line * (i + 1)}
              room={right}
            />
          ))
        : only && (
            <Swatch
              {...props}
              substance={only.substance}
              text={label(only.name)}
              x={beside}
              line={line}
              room={right - beside}
            />
          )}
    </g>
  );
}

interface SwatchProps extends Pick<MassRowProps, "id" | "fillings"> {
  readonly substance: SubstanceKey;
  readonly text: string;
  readonly x: number;
  readonly line: number;
  readonly room: number;
}

const Swatch = ({ id, fillings, substance, text, x, line, room }: SwatchProps) => (
  <g>
    <rect
      class="pic-bar"
      fill={fillingUrl(id, fillings.get(substance) ?? 0)}
      x={px(x + 0.5)}
      y={line - 10.5}
      width="12"
      height="12"
    />
    <text x={px(x + 18)} y={line} font-size="12">
      {cut(text, 12, room - 18)}
    </text>
  </g>
);
