import type { Answer, AnswerQuestion, AnswerVerdict } from "../../trial/index.ts";
import { VerdictWord, type VerdictKind } from "../pictures/verdict-mark.tsx";
import {
  type AnswerPlace,
  type AnswerWords,
  methodOf,
  placeOf,
  reasonSentence,
} from "./reason-words.ts";

export interface AnswersProps extends AnswerWords {
  readonly answers: readonly Answer[];
  /** In the app, whose hash says which page it is; left out, the browser jumps by itself. */
  readonly onJump?: (id: string) => void;
  /** What each product's answers say waits behind its name: the glance above has the verdicts. */
  readonly folded?: boolean;
  /** Link to where the evidence stands; none where it has no place. */
  readonly href: (place: AnswerPlace, about: string) => string;
}

const kinds: Readonly<Record<AnswerVerdict, VerdictKind>> = {
  yes: "within",
  no: "higher",
  undecided: "undecided",
};

const questions = (label: string): Readonly<Record<AnswerQuestion, string>> => ({
  holds: "Does it hold what it says?",
  cools: `Does it cool as well as ${label}?`,
  safe: `Is it as safe as ${label}?`,
  restored: "Is it back as it was?",
});

const short: Readonly<Record<AnswerQuestion, string>> = {
  holds: "Holds what it says",
  cools: "Cools as well",
  safe: "As safe",
  restored: "Back as it was",
};

const placeNames: Readonly<Record<AnswerPlace, string>> = {
  ledger: "Where every gram is",
  contents: "What is in the cans",
  claims: "What the labels claim",
  equal: "In equal conditions",
  hazards: "If it leaked",
  drift: "Drift of the vehicle",
};

const idOf = ({ about, question }: Answer): string => `answer-${about}-${question}`;

interface Group {
  readonly about: string;
  readonly name: string;
  readonly answers: readonly Answer[];
}

function groupsOf(answers: readonly Answer[]): Group[] {
  const groups = new Map<string, Group>();
  for (const answer of answers) {
    const { about, name } = answer;
    const before = groups.get(about)?.answers ?? [];
    groups.set(about, { about, name, answers: [...before, answer] });
  }
  return [...groups.values()];
}

/** The four questions at a glance, then each with its sentence; each opens to what it rests on. */
export function Answers(props: AnswersProps) {
  const groups = groupsOf(props.answers);
  return (
    <div class="answers">
      <ul class="answers-glance">
        {groups.map(({ about, name, answers }) => (
          <li key={about}>
            <span class="answers-name">{name}</span>
            {answers.map((answer) => (
              <a key={answer.question} href={`#${idOf(answer)}`} {...jumping(props, idOf(answer))}>
                <span class="answers-short">{short[answer.question]}</span>
                <VerdictWord kind={kinds[answer.verdict]} word={answer.verdict} />
              </a>
            ))}
          </li>
        ))}
      </ul>
      {groups.map(({ about, name, answers }) => {
        const all = answers.map((answer) => (
          <One key={answer.question} answer={answer} {...props} />
        ));
        return props.folded === true ? (
          <details class="answers-of" key={about}>
            <summary>
              <h3>{name}</h3>
            </summary>
            {all}
          </details>
        ) : (
          <div class="answers-of" key={about}>
            <h3>{name}</h3>
            {all}
          </div>
        );
      })}
    </div>
  );
}

/** Scripts of a report never run: there the address alone leads. */
const jumping = ({ onJump }: AnswersProps, id: string) =>
  onJump && {
    onClick: (event: Event) => {
      event.preventDefault();
      onJump(id);
    },
  };

function One({ answer, href, ...words }: AnswersProps & { readonly answer: Answer }) {
  const [lead] = answer.reasons;
  const { method, assumptions } = methodOf(answer);
  return (
    <div class="answers-one" id={idOf(answer)}>
      <div class="answers-said">
        <h4>{questions(words.label)[answer.question]}</h4>
        <VerdictWord kind={kinds[answer.verdict]} word={answer.verdict} />
        <p>{lead ? reasonSentence(lead, words) : "Nothing was measured that says so."}</p>
      </div>
      <details class="numbers">
        <summary>What it rests on</summary>
        <ul class="answers-reasons">
          {answer.reasons.map((reason, i) => (
            <li key={i}>
              <VerdictWord kind={kinds[reason.verdict]} word={reason.verdict} />
              <span>
                {reasonSentence(reason, words)}{" "}
                <a href={href(placeOf(reason), answer.about)}>{placeNames[placeOf(reason)]}</a>
              </span>
            </li>
          ))}
        </ul>
        <p>
          <strong>How it is decided.</strong> {method}
        </p>
        {assumptions.length > 0 && (
          <ul class="assumptions">
            {assumptions.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        )}
      </details>
    </div>
  );
}
