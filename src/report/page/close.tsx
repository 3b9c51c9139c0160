import type { Caution } from "../../trial/index.ts";
import type { Page } from "./context.ts";
import { judgedReadings } from "./judged.ts";
import { Section, type SectionEntry } from "./section.tsx";

/** Each caution once, dangers first, then in the order of the stages that give it. */
function cautionsOf({ view }: Page): Caution[] {
  const all = view.stages.flatMap(({ cautions }) => cautions);
  const once = [
    ...new Map(all.map((caution) => [`${caution.text} ${caution.reason}`, caution])).values(),
  ];
  const isDanger = ({ severity }: Caution): boolean => severity === "danger";
  return [...once.filter(isDanger), ...once.filter((caution) => !isDanger(caution))];
}

export function Cautions({ page, id, title }: { page: Page } & SectionEntry) {
  const cautions = cautionsOf(page);
  return (
    <Section
      id={id}
      title={title}
      lead="For anyone who would repeat this. Local codes, the vehicle's maker and licensed practice come first."
    >
      {cautions.length > 0 && (
        <ul class="cautions">
          {cautions.map(({ severity, lead: few, text, reason }, i) => (
            <li key={i} class={severity}>
              <strong>
                {severity === "danger" ? "Danger: " : "Caution: "}
                {few}
              </strong>{" "}
              {text} <span class="quiet">{reason}</span>
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}

export function Sources({ page, id, title }: { page: Page } & SectionEntry) {
  const verdicts = judgedReadings(page).flatMap(({ verdict }) => verdict ?? []);
  const sources = [
    ...verdicts.flatMap(({ sources: named, details }) => [
      ...named,
      ...details.map(({ source }) => source),
    ]),
    ...cautionsOf(page).map(({ source }) => source),
    "JCGM 100:2008 (GUM): instrument limits to standard uncertainties, and their combination",
  ];
  // The same source may be written with a capital in one place and without in another.
  const distinct = new Map(sources.map((source) => [source.toLowerCase(), source]));
  return (
    <Section id={id} title={title}>
      <ul class="sources">
        {[...distinct.values()]
          .filter((source) => source !== "")
          .map((source) => (
            <li key={source}>{source}</li>
          ))}
      </ul>
    </Section>
  );
}

export const Recompute = ({ page, id, title }: { page: Page } & SectionEntry) => (
  <Section
    id={id}
    title={title}
    lead="This page holds no result of its own: every number follows from the trial's log by calculations that anybody can run again."
  >
    <ol class="steps">
      <li>
        Ask for the exported log of trial <code>{page.view.trial ?? "(none)"}</code>; the copy that
        this report was made from holds {page.events} events, each with its id, time and device, and
        the logger files as they came.
      </li>
      <li>
        Import it: <code>coldproof trial import FILE</code>.
      </li>
      <li>
        Write the report again: <code>coldproof trial report</code>. Ledger, verdicts and figures
        must be the same; only the moment of writing may differ.
      </li>
    </ol>
  </Section>
);
