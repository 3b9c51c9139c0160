import { dayText, momentText } from "../names.ts";
import { VerdictWord } from "../pictures/verdict-mark.tsx";
import { Answers } from "../answers/answers.tsx";
import { answerLines } from "./answer.ts";
import type { Page } from "./context.ts";
import { Section, type SectionEntry } from "./section.tsx";
import { workedOut } from "./worked-out.ts";

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
      {atmosphere.doubt !== undefined && (
        <p class="where">
          The barometer looks like a forecast’s figure for sea level: gauge pressures here may be
          off.
        </p>
      )}
      <p class="where">
        Written {momentText(generatedAt)} UTC. Clock times are UTC unless an offset stands beside
        them. What stands behind ± is the half-width of a 95 % interval.
      </p>
    </header>
  );
}

/** Answer first: the question, the four answers, and what else can be said now. */
export const Answer = ({ page, id, title }: { page: Page } & SectionEntry) => {
  const { view, units } = page;
  const { answers } = workedOut(view);
  return (
    <Section id={id} title={title}>
      <p class="question">{view.opened?.question ?? "No question was written down."}</p>
      {answers.length > 0 && (
        <Answers
          answers={answers}
          label={labelOf(view)}
          units={units}
          href={(place) => `#${place}`}
        />
      )}
      <h3>And beside that</h3>
      <ul class="answer">
        {answerLines(page).map(({ kind, word, about, sentence }) => (
          <li key={about}>
            <h4>{about}</h4>
            <VerdictWord kind={kind} word={word} />
            <p>{sentence}</p>
          </li>
        ))}
      </ul>
    </Section>
  );
};

const labelOf = ({ vehicle }: Page["view"]): string =>
  vehicle?.labelRefrigerant ?? "the label refrigerant";

interface ContentsProps {
  readonly sections: readonly SectionEntry[];
}

const Links = ({ sections }: ContentsProps) => (
  <ol>
    {sections.map(({ id, title }) => (
      <li key={id}>
        <a href={`#${id}`}>{title}</a>
      </li>
    ))}
  </ol>
);

/** Beside the text at a desk; folded on a phone, where the answer comes first. */
export const Contents = ({ sections }: ContentsProps) => (
  <nav aria-label="Contents">
    <div class="only-wide">
      <Links sections={sections} />
    </div>
    <details class="only-narrow numbers">
      <summary>Contents</summary>
      <Links sections={sections} />
    </details>
  </nav>
);
