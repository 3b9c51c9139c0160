import type { Entry, StageView } from "../../trial/index.ts";
import { clockText, dayText } from "../names.ts";
import { type Page, productName } from "./context.ts";
import { entrySentence } from "./entry-sentence.ts";
import { Section, type SectionEntry } from "./section.tsx";

const statuses = { "not-started": "not started", open: "open", done: "done" } as const;

/** The walk through the stages, each with what was done in it and when. */
export function Done({ page, id, title }: { page: Page } & SectionEntry) {
  const { view } = page;
  // Samples are told by their stream and shown as its trace: a line each would bury the rest.
  const setUp = view.entries.filter(
    ({ type, body }) => !("stage" in body) && type !== "samples-received",
  );
  return (
    <Section
      id={id}
      title={title}
      lead="Each stage with its entries in the order in which they happened. Struck entries were withdrawn; corrected ones show what holds now."
    >
      {setUp.length > 0 && (
        <details class="numbers">
          <summary>Set-up: {setUp.length} entries</summary>
          <Moments entries={setUp} page={page} />
        </details>
      )}
      {view.stages.map((stage) => (
        <StageList
          key={`${stage.stage} ${stage.round ?? ""}`}
          name={nameOf(page, stage)}
          status={statuses[stage.status]}
          end={stage.endState}
          entries={view.entries.filter((entry) => belongs(entry, stage))}
          page={page}
        />
      ))}
    </Section>
  );
}

const nameOf = (page: Page, { title, round }: StageView): string => {
  const name = round === undefined ? undefined : productName(page, round);
  return name === undefined || title.includes(name) ? title : `${title}: ${name}`;
};

const belongs = ({ body }: Entry, { stage, round }: StageView): boolean =>
  "stage" in body && body.stage === stage && body.round === round;

interface StageListProps {
  readonly name: string;
  readonly status?: string;
  readonly end?: string;
  readonly entries: readonly Entry[];
  readonly page: Page;
}

const StageList = ({ name, status, end, entries, page }: StageListProps) => (
  <div class="stage">
    <h3>
      {name}
      {status !== undefined && <span class="status">{status}</span>}
    </h3>
    {end !== undefined && <p class="quiet">At its end: {end}</p>}
    {entries.length === 0 ? (
      <p class="quiet">Nothing was entered.</p>
    ) : (
      <Moments entries={entries} page={page} />
    )}
  </div>
);

/** Entries under the day on which they happened. */
function Moments({ entries, page }: { entries: readonly Entry[]; page: Page }) {
  const days = [...new Set(entries.map(({ when }) => dayText(when)))];
  return (
    <>
      {days.map((day) => (
        <div key={day} class="day">
          <p class="day-name">{day}</p>
          <ol class="moments">
            {entries
              .filter(({ when }) => dayText(when) === day)
              .map((entry) => (
                <Moment key={entry.id} entry={entry} page={page} />
              ))}
          </ol>
        </div>
      ))}
    </>
  );
}

function Moment({ entry, page }: { entry: Entry; page: Page }) {
  const sentence = entrySentence(entry, page);
  return (
    <li>
      <time dateTime={entry.when}>{clockText(entry.when)}</time>
      <span>
        {entry.withdrawn ? <s>{sentence}</s> : sentence}
        {entry.withdrawn && ` Withdrawn: ${entry.withdrawn.reason}`}
        {entry.corrections.some(({ effective }) => effective) && (
          <span class="status">corrected</span>
        )}
      </span>
    </li>
  );
}
