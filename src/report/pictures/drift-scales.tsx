import type { FairDriftRow } from "../../trial/index.ts";
import type { Shown } from "../shown.ts";
import { BandScale } from "./band-scale.tsx";
import type { VerdictKind } from "./verdict-mark.tsx";

export interface DriftScaleProps {
  readonly id: string;
  readonly title: string;
  readonly row: FairDriftRow;
  readonly margin: number;
  /** Of the difference. */
  readonly shown: Shown;
  readonly width: number;
}

/** The vehicle against itself: what moved on the label refrigerant, on the scale on which products are judged. */
export function DriftScale({ row, margin, ...rest }: DriftScaleProps) {
  const { interval, drift } = row;
  const ends = [-margin, margin, interval.from, interval.to];
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const air = 0.1 * (high - low);
  return (
    <BandScale
      {...rest}
      band={{ from: -margin, to: margin, expected: 0 }}
      bandName="margin"
      domain={[low - air, high + air]}
      reading={drift}
      verdict={driftVerdict(row, margin)}
      compact
    />
  );
}

/** Whether the vehicle is what it was, within the margin of the products. */
export function driftVerdict(
  { interval, drift }: FairDriftRow,
  margin: number,
): { readonly kind: VerdictKind; readonly word: string } {
  if (interval.from >= -margin && interval.to <= margin)
    return { kind: "within", word: "as before" };
  if (interval.from > margin || interval.to < -margin)
    return { kind: drift.value > 0 ? "higher" : "lower", word: "moved" };
  return { kind: "undecided", word: "undecided" };
}
