import { TEXT } from "./axis.tsx";
import { type MassShare, percentText } from "./composition.ts";
import { FILLINGS, fillingUrl } from "./substance-pattern.tsx";
import { cut, px, textWidth } from "./text-room.ts";

interface CompositionBarProps {
  /** Of the drawing, whose fillings are used. */
  readonly id: string;
  readonly shares: readonly MassShare[];
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

const TALL = 20;

/** Mass fractions as one bar to scale, each part named below it. */
export function CompositionBar({ id, shares, x, y, width }: CompositionBarProps) {
  const starts = shares.map((_, i) =>
    shares.slice(0, i).reduce((sum, { fraction }) => sum + fraction * width, x),
  );
  return (
    <g>
      {shares.map(({ fraction }, i) => (
        <rect
          key={i}
          class="pic-bar"
          x={px(starts[i] ?? x)}
          y={y}
          width={px(fraction * width)}
          height={TALL}
          fill={fillingUrl(id, i % FILLINGS)}
        />
      ))}
      {placed(shares, x, y + TALL + 15, width).map(({ text, left, top, filling }, i) => (
        <g key={i}>
          <rect
            class="pic-bar"
            x={px(left)}
            y={px(top - 9)}
            width="10"
            height="10"
            fill={fillingUrl(id, filling)}
          />
          <text x={px(left + 14)} y={px(top)} font-size={TEXT}>
            {text}
          </text>
        </g>
      ))}
    </g>
  );
}

/** Names in rows, as many in a row as there is room. */
function placed(shares: readonly MassShare[], x: number, y: number, width: number) {
  let [left, top] = [x, y];
  return shares.map(({ name, fraction }, i) => {
    const text = cut(`${name} ${percentText(fraction)}`, TEXT, width - 16);
    const room = textWidth(text, TEXT) + 24;
    if (left > x && left + room > x + width + 10) [left, top] = [x, top + 17];
    const at = { text, left, top, filling: i % FILLINGS };
    left += room;
    return at;
  });
}
