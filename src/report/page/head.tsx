import { dayText, momentText } from "../names.ts";
import { VerdictWord } from "../pictures/verdict-mark.tsx";
import { answerLines } from "./answer.ts";
import type { Page } from "./context.ts";
import { Section, type SectionEntry } from "./section.tsx";

const airSources = {
  barometer: "from the barometer",
  altitude: "from the altitude",
  assumed: "assumed, because neither barometer nor altitude was given",
} as const;

/** Name of the trial, where and when, and what the reader should know before the first number. */
export function Head({ page }: { page: Page }) {
  const { view, generatedAt, units } = page;
  const { opened, atmosphere } = view;
  const days = [...new Set(view.entries.map(({ when }) => dayText(when)))];
  const span = days.length > 1 ? `${days[0] ?? ""} to ${days.at(-1) ?? ""}` : days[0];
  return (
    <header>
      {opened?.demonstration === true && (
        <p class="demonstration">
          Demonstration. Every name and number in it is invented; nothing here was measured.
        </p>
      )}
      <p class="kind">Coldproof trial report</p>
      <h1>{opened?.title ?? "A trial without a title"}</h1>
      <p class="where">
        {[
          opened?.place,
          span,
          `air pressure ${units.thing("air-pressure").pair(atmosphere)}, ${airSources[atmosphere.from]}`,
        ]
          .filter((part) => part !== undefined && part !== "")
          .join(" · ")}
      </p>
      <p class="where">
        Written {momentText(generatedAt)} UTC. Clock times are UTC unless an offset stands beside
        them. What stands behind ± is the half-width of a 95 % interval.
      </p>
    </header>
  );
}

/** Answer first: the question, and what can be said now. */
export const Answer = ({ page, id, title }: { page: Page } & SectionEntry) => (
  <Section id={id} title={title}>
    <p class="question">{page.view.opened?.question ?? "No question was written down."}</p>
    <ul class="answer">
      {answerLines(page).map(({ kind, word, about, sentence }) => (
        <li key={about}>
          <h3>{about}</h3>
          <VerdictWord kind={kind} word={word} />
          <p>{sentence}</p>
        </li>
      ))}
    </ul>
  </Section>
);

export const Contents = ({ sections }: { sections: readonly SectionEntry[] }) => (
  <nav aria-label="Contents">
    <ol>
      {sections.map(({ id, title }) => (
        <li key={id}>
          <a href={`#${id}`}>{title}</a>
        </li>
      ))}
    </ol>
  </nav>
);
