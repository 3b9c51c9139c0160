import type { Verdict } from "../../trial/index.ts";
import { px } from "./text-room.ts";

export type VerdictKind = Verdict["kind"];

/** Circle, triangle up, triangle down, hollow diamond: told apart without colour, in print and small. */
function outline(kind: VerdictKind, r: number): string {
  const side = px(r * 1.1);
  const low = px(r * 0.85);
  switch (kind) {
    case "within":
      return `M${px(-r)} 0A${px(r)} ${px(r)} 0 1 1 ${px(r)} 0A${px(r)} ${px(r)} 0 1 1 ${px(-r)} 0Z`;
    case "higher":
      return `M0 ${px(-side)}L${side} ${low}L${-side} ${low}Z`;
    case "lower":
      return `M0 ${side}L${side} ${-low}L${-side} ${-low}Z`;
    case "undecided":
      return `M0 ${-side}L${side} 0L0 ${side}L${-side} 0Z`;
  }
}

/** The shape of a verdict at a place inside a picture. */
export const VerdictMark = ({
  kind,
  x,
  y,
  r,
}: {
  kind: VerdictKind;
  x: number;
  y: number;
  r: number;
}) => (
  <path
    class={`pic-mark pic-mark-${kind}`}
    d={outline(kind, r)}
    transform={`translate(${px(x)} ${px(y)})`}
  />
);

/** Word and shape of a verdict, to stand beside a number. */
export const VerdictWord = ({ kind, word }: { kind: VerdictKind; word: string }) => (
  <span class={`verdict verdict-${kind}`}>
    <svg width="16" height="16" viewBox="-8 -8 16 16" aria-hidden="true">
      <VerdictMark kind={kind} x={0} y={0} r={6} />
    </svg>
    <span>{word}</span>
  </span>
);
