import type { FairRow } from "../../trial/index.ts";
import { COVERAGE_95, type Shown } from "../shown.ts";
import { BandScale } from "./band-scale.tsx";
import type { VerdictKind } from "./verdict-mark.tsx";

/** One effect as read and in equal conditions, both against the margin. */
export interface FairScalesProps {
  readonly id: string;
  readonly title: string;
  readonly row: FairRow;
  /** Of the difference. */
  readonly shown: Shown;
  readonly width: number;
}

const kinds: Readonly<Record<FairRow["verdict"], VerdictKind>> = {
  equivalent: "within",
  warmer: "higher",
  higher: "higher",
  colder: "lower",
  lower: "lower",
  undecided: "undecided",
};

/** Shape of a verdict against the margin. */
export const fairKind = (verdict: FairRow["verdict"]): VerdictKind => kinds[verdict];

/** The device twice on one scale: the margin is the band, zero is the label refrigerant. */
export function FairScales({ id, title, row, shown, width }: FairScalesProps) {
  const { margin, asMeasured, equalConditions, interval, verdict } = row;
  const band = { from: -margin, to: margin, expected: 0 };
  const half = COVERAGE_95 * asMeasured.u;
  const ends = [
    -margin,
    margin,
    interval.from,
    interval.to,
    asMeasured.value - half,
    asMeasured.value + half,
  ];
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const air = 0.1 * (high - low);
  const shared = {
    shown,
    band,
    bandName: "margin",
    domain: [low - air, high + air] as const,
    width,
    compact: true,
  };
  return (
    <div class="fair-scales" role="group" aria-label={title}>
      <p class="fair-title">{title}</p>
      <BandScale
        {...shared}
        id={`${id}-read`}
        title="As measured"
        reading={asMeasured}
        verdict={{ kind: "undecided", word: "conditions not equal" }}
      />
      <BandScale
        {...shared}
        id={`${id}-equal`}
        title="In equal conditions"
        reading={equalConditions}
        verdict={{ kind: fairKind(verdict), word: verdict }}
      />
    </div>
  );
}
