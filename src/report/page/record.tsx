import type { Entry, Refused } from "../../trial/index.ts";
import { momentText, problemNames } from "../names.ts";
import { DataTable } from "../pictures/picture.tsx";
import { type Page, stageName } from "./context.ts";
import { entrySentence, originalSentence } from "./entry-sentence.ts";
import { Section, type SectionEntry } from "./section.tsx";

/** What was changed after it was first written, what the log could not use, what files held aside. */
export function Record({ page, id, title }: { page: Page } & SectionEntry) {
  const changed = page.view.entries.filter(
    ({ corrections, withdrawn }) => corrections.length > 0 || withdrawn,
  );
  return (
    <Section
      id={id}
      title={title}
      lead="Nothing is erased: a first entry stays in the log, and what could not be used is listed."
    >
      <h3>Corrections and withdrawals</h3>
      {changed.length === 0 ? (
        <p class="quiet">Nothing was corrected or withdrawn.</p>
      ) : (
        <ul class="changes">
          {changed.map((entry) => (
            <Change key={entry.id} entry={entry} page={page} />
          ))}
        </ul>
      )}
      <h3>Entries that could not be used</h3>
      <RefusedList refused={page.view.refused} />
      <h3>Kept aside from logger files</h3>
      <Aside page={page} />
    </Section>
  );
}

function Change({ entry, page }: { entry: Entry; page: Page }) {
  const { corrections, conflict, withdrawn } = entry;
  return (
    <li>
      <p>
        <s>{originalSentence(entry, page)}</s>
      </p>
      {corrections.map((one) => (
        <p key={one.id}>
          {one.effective && <strong>{entrySentence(entry, page)} </strong>}
          <span class="quiet">
            {one.effective ? "Holds now" : "Does not hold"}. Corrected {momentText(one.at)} on{" "}
            {one.device}: {one.reason}
            {one.withdrawn && ` Withdrawn ${momentText(one.withdrawn.at)}: ${one.withdrawn.reason}`}
          </span>
        </p>
      ))}
      {withdrawn && (
        <p class="quiet">
          Withdrawn {momentText(withdrawn.at)} on {withdrawn.device}: {withdrawn.reason}
          {withdrawn.ids.length > 1 &&
            ` Withdrawn ${withdrawn.ids.length} times; the earliest speaks.`}
        </p>
      )}
      {conflict.length > 0 && (
        <p>
          {conflict.length} other correction{conflict.length === 1 ? " was" : "s were"} made without
          sight of this one. A person should look at them.
        </p>
      )}
    </li>
  );
}

const refusals: Readonly<Record<Refused["reason"], string>> = {
  "bad-body": "its contents are not valid",
  "unknown-target": "it changes an entry that is not in the log",
  "target-not-an-entry": "it changes something that is no entry",
  "bad-correction": "its correction is not valid",
  "other-trial": "it belongs to another trial",
  "same-id-other-content": "another event has the same id",
};

function RefusedList({ refused }: { refused: readonly Refused[] }) {
  if (refused.length === 0) return <p class="quiet">None.</p>;
  return (
    <DataTable
      caption="Events that stay in the log but say nothing that could be used"
      head={["Event", "Why", "What was found and what is accepted"]}
      rows={refused.map(({ id, type, reason, issues }) => [
        `${type}, ${id}`,
        refusals[reason],
        issues
          .map(({ field, value, accepted }) => `${field}: ${plain(value)}; accepted: ${accepted}`)
          .join(". ") || "–",
      ])}
    />
  );
}

/** A value from outside as text, whatever it is. */
const plain = (value: unknown): string =>
  typeof value === "string"
    ? `“${value}”`
    : value === undefined
      ? "nothing"
      : JSON.stringify(value);

function Aside({ page }: { page: Page }) {
  const files = page.view.traces.filter(({ problems }) => problems.length > 0);
  if (files.length === 0) return <p class="quiet">Nothing.</p>;
  return (
    <>
      {files.map(({ id, fileName, problems }) => (
        <details key={id} class="numbers" open={problems.length <= 12}>
          <summary>
            {fileName}: {problems.length}
          </summary>
          <DataTable
            caption="Lines are counted from 1 in the file as it came"
            head={["Line", "Kind", "What stood there", "What was done"]}
            rows={problems.map(({ line, kind, column, raw, sentence }) => [
              String(line),
              `${problemNames[kind]}${column === undefined ? "" : `, ${column}`}`,
              raw,
              sentence,
            ])}
          />
        </details>
      ))}
    </>
  );
}

/** Requirements that are not met, stage by stage. */
export function Missing({ page, id, title }: { page: Page } & SectionEntry) {
  const open = page.view.stages.flatMap((stage) =>
    stage.requirements.filter(({ met }) => !met).map((requirement) => ({ stage, requirement })),
  );
  if (open.length === 0) {
    return <Section id={id} title={title} lead="Every requirement of every stage is met." />;
  }
  return (
    <Section id={id} title={title}>
      <DataTable
        caption="Requirements that are not met"
        head={["Stage", "To be done", "State"]}
        rows={open.map(({ stage, requirement }) => [
          stageName(page, stage.stage, stage.round),
          requirement.text,
          requirement.detail,
        ])}
      />
    </Section>
  );
}
