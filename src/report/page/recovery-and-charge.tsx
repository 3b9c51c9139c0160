import {
  chargingFinding,
  recoveryFinding,
  type RecoveryFinding,
  type StageView,
} from "../../trial/index.ts";
import { DataTable } from "../pictures/picture.tsx";
import { type Page, stageName } from "./context.ts";
import { Section, type SectionEntry } from "./section.tsx";

const LEAD =
  "What came out of the vehicle and what was still in it, and what went in against the target that follows from the label charge. A target for a refrigerant that is not on the label is a model's figure, not a permission.";
const NONE = "Nothing was recovered or charged, so there is nothing to weigh up here.";

/** Each stage that moved refrigerant, with what can be said about it. */
export function RecoveryAndCharge({ page, id, title }: { page: Page } & SectionEntry) {
  const moved = page.view.stages.filter(({ status }) => status !== "not-started");
  const out = moved.filter(({ stage }) => stage === "recover" || stage === "restore");
  const recovered = out.flatMap((stage) => recoveredRow(page, stage));
  const charged = moved
    .filter(({ stage }) => stage === "charge")
    .flatMap((stage) => chargedRow(page, stage));
  return (
    <Section id={id} title={title} lead={recovered.length + charged.length > 0 ? LEAD : NONE}>
      {recovered.length > 0 && (
        <DataTable
          caption="Recovered, with 95 % intervals"
          head={["Stage", "Content", "Came out", "95 % required", "Vapour left", "Oil to put back"]}
          rows={recovered}
        />
      )}
      {charged.length > 0 && (
        <DataTable
          caption="Charged, against the target"
          head={["Stage", "Product", "Charged", "Target", "Methods reach", "Would be called"]}
          rows={charged}
        />
      )}
    </Section>
  );
}

const verdicts = {
  reached: "reached",
  "not-reached": "not reached",
  "cannot-tell": "cannot be told",
} as const;

function recoveredRow(page: Page, { stage, round }: StageView): string[][] {
  // The report's own day: a page printed later says the same of its date.
  const finding = recoveryFinding(page.view, { stage, round }, page.generatedAt.slice(0, 10));
  if (!finding || (!finding.recovered && "missing" in finding.inside)) return [];
  const { recovered, oil } = finding;
  const share = recovered
    ? `${(100 * recovered.share).toFixed(1)} ± ${(200 * recovered.u).toFixed(1)} %`
    : "not weighed";
  return [
    [
      stageName(page, stage, round),
      finding.content.name,
      share,
      recovered ? verdicts[recovered.verdict] : "cannot be told",
      leftText(page, finding),
      oil ? page.units.quantity("oil-drained").text(oil.toPutBack) : "not measured",
    ],
  ];
}

function leftText({ units }: Page, { inside }: RecoveryFinding): string {
  if ("missing" in inside) return "not known";
  const mass = units.thing("small-mass");
  return inside.phase === "vapour"
    ? mass.pair({ value: inside.mass, u: inside.u })
    : `at least ${mass.text(inside.mass)}: liquid is possible`;
}

function chargedRow(page: Page, { stage, round }: StageView): string[][] {
  const finding = chargingFinding(page.view, { stage, round });
  const mass = page.units.thing("small-mass");
  const name = stageName(page, stage, round);
  if (finding.kind === "missing") return [[name, finding.why, "", "", "", ""]];
  const { plan, charged, label, product } = finding;
  return [
    [
      name,
      product,
      charged ? mass.pair(charged) : "nothing yet",
      mass.text(plan.chosen.mass),
      `${mass.text(plan.range.from)} to ${mass.text(plan.range.to)}`,
      `${mass.text(plan.claimed)} of ${label} by liquid volume`,
    ],
  ];
}
