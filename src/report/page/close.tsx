import { type Caution, cautionsAt, treatments } from "../../trial/index.ts";
import { redactionSentence } from "../redaction-words.ts";
import type { Page } from "./context.ts";
import { judgedReadings } from "./judged.ts";
import { Section, type SectionEntry } from "./section.tsx";
import { workedOut } from "./worked-out.ts";

/** Each caution once, dangers first, then in the order of the stages that give it. */
function cautionsOf({ view }: Page): Caution[] {
  const treated = treatments(view, workedOut(view).identified);
  const all = view.stages.flatMap((stage) => cautionsAt(view, stage, treated));
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

/** What was hidden before publishing, when something was. */
const redactionsOf = ({ view }: Page): string[] =>
  view.entries.flatMap((entry) =>
    entry.type === "log-redacted" ? [redactionSentence(entry.body)] : [],
  );

export const Recompute = ({ page, id, title }: { page: Page } & SectionEntry) => (
  <Section
    id={id}
    title={title}
    lead="This page holds no result of its own: every number follows from the trial's log by calculations that anybody can run again."
  >
    {redactionsOf(page).map((sentence) => (
      <p key={sentence}>{sentence}</p>
    ))}
    <ol class="steps">
      <li>
        Keep this file as it came. It carries the log of trial{" "}
        <code>{page.view.trial ?? "(none)"}</code>, {page.events} entries, each with its id, time
        and device, and the logger files as they came.
      </li>
      <li>
        Drop the file on the first page of the app, or run <code>coldproof trial verify FILE</code>.
        Every figure is worked out again from the readings, the page is written again, and both are
        compared with this one; an altered byte is found.
      </li>
      <li>
        Take its log in there to look at each entry, correct a thing in a copy, and see what would
        follow.
      </li>
      <li>
        Ask its author for the public key: a signature that fits it shows whose file this is.
        Without one, the file shows that its figures follow from its readings, and nothing about who
        took them.
      </li>
    </ol>
  </Section>
);
