import type { Entry, StageView } from "../../trial/index.ts";
import { clockText, dayText } from "../names.ts";
import { type Page, productName } from "./context.ts";
import { entrySentence } from "./entry-sentence.ts";
import { Section, type SectionEntry } from "./section.tsx";

const statuses = { "not-started": "not started", open: "open", done: "done" } as const;

/** The walk through the stages, each with what was done in it and when. */
export function Done({ page, id, title }: { page: Page } & SectionEntry) {
  const { view } = page;
  const setUp = view.entries.filter(({ body }) => !("stage" in body));
  return (
    <Section
      id={id}
      title={title}
      lead="Each stage with its entries in the order in which they happened. Struck entries were withdrawn; corrected ones show what holds now."
    >
      {setUp.length > 0 && <StageList name="Set-up" entries={setUp} page={page} />}
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
      <ol class="moments">
        {entries.map((entry, i) => (
          <Moment key={entry.id} entry={entry} before={entries[i - 1]} page={page} />
        ))}
      </ol>
    )}
  </div>
);

function Moment({ entry, before, page }: { entry: Entry; before: Entry | undefined; page: Page }) {
  const day = dayText(entry.when);
  const sentence = entrySentence(entry, page);
  return (
    <li>
      <time dateTime={entry.when}>
        {(before === undefined || dayText(before.when) !== day) && <b>{day}</b>}
        {clockText(entry.when)}
      </time>
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
