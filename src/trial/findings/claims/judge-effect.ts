import { conditionWords } from "./condition-words.ts";
import type {
  ClaimContext,
  ClaimEffect,
  ClaimEvidence,
  ClaimJudge,
  ClaimVerdict,
} from "./context.ts";

const METHOD =
  "The product minus the label refrigerant in the same vehicle. The claim stands or falls where the whole 95 % interval lies on one side of zero and the conditions were equal or made equal.";
const FAIR =
  "The same vehicle on both charges in equal conditions, repeated until the interval leaves zero: return air, humidity, outside air and speed alike or corrected for, the label refrigerant again at the end.";

interface Asked {
  readonly quantity: ClaimEffect["quantity"];
  readonly statement: string;
  readonly than: string;
  /** How a difference is told. */
  readonly shown: (effect: ClaimEffect) => string;
}

const bar = (pa: number): string => `${pa < 0 ? "−" : "+"}${Math.abs(pa / 1e5).toFixed(2)} bar`;
const kelvin = (K: number): string => `${K < 0 ? "−" : "+"}${Math.abs(K).toFixed(1)} K`;
const interval =
  (unit: (value: number) => string) =>
  ({ effect, lower, upper }: ClaimEffect): string =>
    `${unit(effect)} (95\u00a0%: ${unit(lower)} to ${unit(upper)})`;

const head: Asked = {
  quantity: "high-side",
  statement: "Its high-side pressure is lower than that of the label refrigerant.",
  than: "lower",
  shown: interval(bar),
};
const vent: Asked = {
  quantity: "vent-temperature",
  statement: "Its vent air is colder than that of the label refrigerant.",
  than: "colder",
  shown: interval(kelvin),
};

/** May it decide: equal conditions, made so or read so. */
const decides = ({ basis, unequal }: ClaimEffect): boolean =>
  basis === "equal-conditions" || unequal === undefined;

const evidenceOf = (asked: Asked, effect: ClaimEffect): ClaimEvidence => ({
  from: "trial",
  text: [
    `${conditionWords[effect.condition]}: ${asked.shown(effect)}, ${effect.basis === "equal-conditions" ? "carried to equal conditions" : "as measured"}.`,
    ...(effect.unequal === undefined ? [] : [effect.unequal]),
  ].join(" "),
});

function judged(asked: Asked, { effects }: ClaimContext): ClaimVerdict {
  const mine = effects.filter(({ quantity }) => quantity === asked.quantity);
  const fair = mine.filter(({ basis }) => basis === "equal-conditions");
  const used = fair.length > 0 ? fair : mine;
  const evidence = mine.map((effect) => evidenceOf(asked, effect));
  const bare = { statement: asked.statement, evidence, method: METHOD };
  const undecided = (because: string): ClaimVerdict => ({
    ...bare,
    verdict: "undecided",
    because,
    wouldDecide: FAIR,
  });
  if (used.length === 0) {
    return undecided("No runs of this product and the label refrigerant stand in one condition.");
  }
  const deciding = used.filter(decides);
  if (deciding.length === 0) {
    return undecided(
      "The runs were not made in equal conditions, so the difference is product and weather together.",
    );
  }
  const below = deciding.filter(({ upper }) => upper < 0).length;
  const above = deciding.filter(({ lower }) => lower > 0).length;
  if (below > 0 && above > 0) return undecided("It holds in one condition and fails in another.");
  if (above > 0) {
    return {
      ...bare,
      verdict: "contradicted",
      because: `It was not ${asked.than}: the whole interval lies above zero.`,
    };
  }
  return below === deciding.length
    ? {
        ...bare,
        verdict: "supported",
        because: `It was ${asked.than}: the whole interval lies below zero.`,
      }
    : undecided("Zero lies within the interval: this trial cannot tell a difference from none.");
}

export const judgeHead: ClaimJudge = (_claim, context) => judged(head, context);
export const judgeVent: ClaimJudge = (_claim, context) => judged(vent, context);
