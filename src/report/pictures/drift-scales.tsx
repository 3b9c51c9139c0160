import type { FairDriftRow } from "../../trial/index.ts";
import type { Shown } from "../shown.ts";
import { BandScale } from "./band-scale.tsx";

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
  const inside = interval.from >= -margin && interval.to <= margin;
  const outside = interval.from > margin || interval.to < -margin;
  const up = drift.value > 0 ? "higher" : "lower";
  const verdict = inside
    ? ({ kind: "within", word: "as before" } as const)
    : outside
      ? ({ kind: up, word: "moved" } as const)
      : ({ kind: "undecided", word: "undecided" } as const);
  return (
    <BandScale
      {...rest}
      band={{ from: -margin, to: margin, expected: 0 }}
      bandName="margin"
      domain={[low - air, high + air]}
      reading={drift}
      verdict={verdict}
      compact
    />
  );
}
