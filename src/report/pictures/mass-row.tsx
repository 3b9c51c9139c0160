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

/** Heights inside a row: name, bar, what is in it. */
export const ROW = { height: 70, name: 15, bar: 22, thick: 22, inside: 58 } as const;

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
  const { row, y, right, shown } = props;
  const value =
    row.u === undefined ? shown.text(row.mass) : shown.pair({ value: row.mass, u: row.u });
  const room = right - textWidth(value, 13) - 12;
  return (
    <g class={`pic-row pic-row-${row.account.kind}`}>
      <text class="pic-name" x="0" y={y + ROW.name} font-size="13">
        {cut(row.account.name, 13, room)}
      </text>
      <text class="pic-number" x={right} y={y + ROW.name} font-size="13" text-anchor="end">
        {value}
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

const bases = { weighed: "weighed", declared: "declared, not weighed", none: "" } as const;

/** The substances by name, each behind a swatch of its filling, and what the mass rests on. */
function Inside({ row, id, y, right, shown, fillings }: MassRowProps) {
  const line = y + ROW.inside;
  const words = bases[row.account.basis];
  const contents = row.contents ?? [];
  let x = 0;
  const shownContents = contents.map((one) => {
    const text =
      contents.length > 1 ? `${one.name} ${shown.text(one.mass.value, one.mass.u)}` : one.name;
    const at = x;
    x += 18 + textWidth(text, 12) + 12;
    return { one, text, at };
  });
  const fits = x + textWidth(words, 12) <= right;
  return (
    <g class="pic-inside">
      {shownContents.map(({ one, text, at }) => (
        <g key={one.substance}>
          <rect
            class="pic-bar"
            fill={fillingUrl(id, fillings.get(one.substance) ?? 0)}
            x={px(at + 0.5)}
            y={line - 10}
            width="12"
            height="11"
          />
          <text x={px(at + 18)} y={line} font-size="12">
            {cut(text, 12, right - at - 18)}
          </text>
        </g>
      ))}
      {words !== "" && contents.length > 0 && fits && (
        <text class="pic-quiet" x={px(x)} y={line} font-size="12">
          {words}
        </text>
      )}
    </g>
  );
}
