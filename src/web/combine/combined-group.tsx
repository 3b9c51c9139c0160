import { useId } from "preact/hooks";
import type { CombinedResult } from "../../calculations/index.ts";
import {
  BandScale,
  conditionNames,
  COVERAGE_95,
  DataTable,
  fairKind,
  type Shown,
  shownDifference,
  VerdictWord,
} from "../../report/index.ts";
import { Fit } from "../look/fit.tsx";
import { preferences } from "../shell/preferences.ts";

type Group = CombinedResult["groups"][number];

/** One product in one condition: each trial against the interval of all. */
export function CombinedGroup({ group }: { readonly group: Group }) {
  const { product, label, condition, form, summary, trials, verdict } = group;
  const shown = shownDifference(preferences.value.system === "us" ? "°F" : "°C");
  const known = Object.entries(conditionNames).find(([name]) => name === condition)?.[1];
  const swing = form === "steady" ? "" : `, ${form} of the swing`;
  return (
    <section class="sheet">
      <h2>
        {product} minus {label}, {known ?? condition}
        {swing}
      </h2>
      {summary ? (
        <p>
          {verdict !== undefined && <VerdictWord kind={fairKind(verdict)} word={verdict} />}{" "}
          {summarySentence(summary, shown)}
        </p>
      ) : (
        <p>Only one of these trials has it: nothing can be put together.</p>
      )}
      <Fit>{(width) => <Rows group={group} shown={shown} width={width} />}</Fit>
      <DataTable
        caption="Difference at the vent in equal conditions, with 95 % intervals"
        head={["Trial", "Vehicle", "Difference", "Weight"]}
        rows={trials.map(({ name, vehicle = "", effect, u, weight }) => [
          name,
          vehicle,
          shown.pair({ value: effect, u }),
          weight === undefined ? "" : `${(100 * weight).toFixed(0)} %`,
        ])}
      />
    </section>
  );
}

function summarySentence(summary: NonNullable<Group["summary"]>, shown: Shown): string {
  const { mean, se, interval, tau, heterogeneity, prediction } = summary;
  const from = `${shown.text(interval.from, se)} to ${shown.text(interval.to, se)}`;
  const scatter = `Between trials it differs by ${shown.text(tau, se).replace("+", "")} (standard deviation), ${(100 * heterogeneity).toFixed(0)} % of the scatter.`;
  const next = prediction
    ? ` One more trial would lie from ${shown.text(prediction.from, se)} to ${shown.text(prediction.to, se)}.`
    : " Two trials cannot tell where a third would lie.";
  return `Mean ${shown.text(mean, se)}, 95 % from ${from}. ${scatter}${next}`;
}

interface RowsProps {
  readonly group: Group;
  readonly shown: Shown;
  readonly width: number;
}

/** The device for each trial, named by its vehicle, on one scale; the band is the 95 % interval of the mean. */
function Rows({ group: { trials, summary }, shown, width }: RowsProps) {
  const id = `combined${useId()}`;
  const ends = [
    0,
    ...trials.flatMap(({ effect, u }) => [effect - COVERAGE_95 * u, effect + COVERAGE_95 * u]),
    ...(summary ? [summary.interval.from, summary.interval.to] : []),
  ];
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const air = 0.1 * (high - low);
  const shared = {
    ...{ shown, width, compact: true, bandName: "95 % of the mean" },
    domain: [low - air, high + air] as const,
    ...(summary && { band: { ...summary.interval, expected: summary.mean } }),
  };
  return (
    <div class="fair-scales" role="group" aria-label="Each trial">
      {trials.map(({ name, vehicle, effect, u }, i) => (
        <BandScale
          key={i}
          {...shared}
          id={`${id}-${i}`}
          title={vehicle ?? name}
          reading={{ value: effect, u }}
        />
      ))}
    </div>
  );
}
