import type { Answer } from "../../calculations/index.ts";
import { formatNumber } from "../../units/index.ts";
import { DataTable } from "../../report/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import type { Chosen } from "./chosen.ts";
import { type Climate, type Fact, type Flame, type FlameLimit, resultOf } from "./results.ts";
import { Basis, CannotCompute, CautionLines, Figure, Figures } from "./said.tsx";

const burnWords: Readonly<Record<Flame["burns"], string>> = {
  yes: "Burns",
  no: "Does not burn",
  "treat-as-burning": "Treat it as flammable",
  unknown: "Not known here whether it burns",
};
const ruleWords: Readonly<Record<Flame["rule"], string>> = {
  listed: "as listed",
  "le-chatelier": "by Le Chatelier’s rule",
  none: "no rule gives one",
};
const tableWords = {
  ashrae: "ASHRAE 34",
  isoEn: "ISO 817, EN 378",
  other: "another source",
  blend: "listed for the blend",
} as const;
const trustWords: Readonly<Record<Fact["trust"], string>> = {
  published: "published",
  "cross-checked": "cross-checked",
  memory: "from memory: check it",
  shaky: "disputed",
};

const limitText = ({ volumePercent, massPerVolume }: FlameLimit): string =>
  `${formatNumber(volumePercent, 1)} % by volume, ${formatNumber(1000 * massPerVolume, 0)} g/m³`;

/** What burns says so beside its name, before any number is read. */
export function FlameLine({ answer }: { readonly answer: Answer | undefined }) {
  const flame = resultOf("flammability", answer);
  if (!flame || flame.burns === "no") return null;
  const by = flame.class === null ? "" : `, class ${flame.class}`;
  const from = flame.lfl
    ? ` from ${formatNumber(flame.lfl.volumePercent, 1)} % by volume in air`
    : "";
  return <CautionLines cautions={[`${burnWords[flame.burns]}${from}${by}.`]} />;
}

/** Safety class, flammability limit and warming potential, each with where it comes from. */
export function BurnsAndWarms({ substance }: { readonly substance: Chosen }) {
  const { answers, current, failed } = useAnswers([
    { name: "flammability", input: substance.input },
    { name: "climate", input: substance.input },
  ]);
  const flame = resultOf("flammability", answers[0]);
  const climate = resultOf("climate", answers[1]);
  return (
    <section class="sheet" aria-labelledby="burns">
      <h2 id="burns">Does it burn, does it warm</h2>
      <CannotCompute failed={failed} />
      {flame && (
        <Figures stale={!current}>
          <Figure
            label="Safety class"
            value={flame.class ?? "not listed"}
            small={
              flame.behavesAs === undefined ? undefined : `by its parts like ${flame.behavesAs}`
            }
          />
          <Figure label="In air" value={burnWords[flame.burns]} />
          <Figure
            label="Burns from (LFL)"
            value={
              flame.lfl
                ? `${formatNumber(flame.lfl.volumePercent, 1)} %`
                : flame.burns === "no"
                  ? "none"
                  : "not known"
            }
            small={
              flame.lfl
                ? `${formatNumber(1000 * flame.lfl.massPerVolume, 0)} g/m³, ${ruleWords[flame.rule]}; lowest known`
                : flame.burns === "no"
                  ? "no flame in the standard’s test"
                  : "only tests of this composition count"
            }
          />
        </Figures>
      )}
      {flame && flame.limits.length > 1 && (
        <DataTable
          caption="The limit by table, air at 25 °C"
          head={["Table", "Lower flammability limit"]}
          rows={flame.limits.map((one) => [tableWords[one.table], limitText(one)])}
        />
      )}
      {climate && (
        <DataTable
          caption="Global warming potential over 100 years, carbon dioxide is 1"
          head={["IPCC report", "GWP", "Trust"]}
          rows={climate.gwp.map((one) => [one.edition, gwpText(one), trustText(one)])}
        />
      )}
      <Basis answers={answers} />
    </section>
  );
}

type Gwp = Climate["gwp"][number];

/** Whole numbers: a tenth means nothing beside the report's own uncertainty; below 10 one decimal stays. */
const whole = (value: number): string =>
  value < 0.1
    ? formatNumber(value, 2)
    : formatNumber(value, value < 10 && !Number.isInteger(value) ? 1 : 0);

function gwpText({ value, from, to }: Gwp): string {
  if (value === null) return from > 0 ? `at least ${whole(from)}` : "no value";
  return to !== null && to > from ? `${whole(from)} to ${whole(to)}` : whole(value);
}

const trustText = ({ missing, trust, value }: Gwp): string =>
  missing.length > 0
    ? `no value for ${missing.join(", ")}`
    : value === null
      ? "–"
      : trustWords[trust];
