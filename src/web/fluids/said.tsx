import type { ComponentChildren } from "preact";
import { type Answer, estimateIn } from "../../calculations/index.ts";
import { CautionMark } from "../walk/caution-mark.tsx";

interface FigureProps {
  readonly label: string;
  readonly value: string;
  /** The same in another way, or what belongs to it. */
  readonly small?: string | undefined;
}

/** One number, large, with its unit. */
export const Figure = ({ label, value, small }: FigureProps) => (
  <div class="fluid-figure">
    <dt>{label}</dt>
    <dd>
      {value}
      {small !== undefined && <small>{small}</small>}
    </dd>
  </div>
);

interface FiguresProps {
  /** What stands there is of an earlier question: the new one is being worked out. */
  readonly stale?: boolean;
  readonly children: ComponentChildren;
}

export const Figures = ({ stale = false, children }: FiguresProps) => (
  <dl class={stale ? "fluid-figures is-stale" : "fluid-figures"}>{children}</dl>
);

/** Cautions of a calculation, each where its numbers are. */
export function CautionLines({ cautions }: { readonly cautions: readonly string[] }) {
  return (
    <ul class="caution-lines">
      {cautions.map((text) => (
        <li key={text}>
          <CautionMark severity="caution" />
          <span>{text}</span>
        </li>
      ))}
    </ul>
  );
}

const union = (lists: readonly (readonly string[])[]): string[] => [...new Set(lists.flat())];

const assumptionsOf = (answers: readonly (Answer | undefined)[]): string[] =>
  union(answers.map((one) => (one?.kind === "answer" ? (one.assumptions ?? []) : [])));

/** The note of a saved picture: an estimate goes out marked as one. */
export function noteWith(note: string, answers: readonly (Answer | undefined)[]): string {
  const estimate = estimateIn(assumptionsOf(answers));
  return estimate === undefined ? note : `${note} ${estimate}`;
}

interface BasisProps {
  readonly answers: readonly (Answer | undefined)[];
  /** Cautions that stand elsewhere on the page already. */
  readonly without?: readonly string[];
}

/** Whether it is an estimate, what to mind, what was taken for granted, and whence the numbers are. */
export function Basis({ answers, without = [] }: BasisProps) {
  const full = answers.filter((answer) => answer?.kind === "answer");
  const cautions = union(full.map((one) => one.cautions)).filter((text) => !without.includes(text));
  const assumptions = assumptionsOf(full);
  const sources = union(full.map((one) => one.sources));
  if (full.length === 0) return null;
  const estimate = estimateIn(assumptions);
  const others = assumptions.filter((text) => text !== estimate);
  return (
    <>
      {estimate !== undefined && (
        <p class="told fluid-estimate">
          <strong>Estimate.</strong> {estimate}
        </p>
      )}
      {cautions.length > 0 && <CautionLines cautions={cautions} />}
      {others.length > 0 && <Folded summary="Taken for granted" texts={others} />}
      {sources.length > 0 && <Folded summary="Sources of these numbers" texts={sources} />}
    </>
  );
}

const Folded = ({ summary, texts }: { summary: string; texts: readonly string[] }) => (
  <details class="fluid-folded">
    <summary>
      {summary} ({texts.length})
    </summary>
    <ul class="fluid-sources">
      {texts.map((text) => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  </details>
);

/** Nature's "no", said as it is. */
export const NoAnswer = ({ answer }: { readonly answer: Answer | undefined }) =>
  answer?.kind === "no-answer" ? <p class="told">{answer.message}</p> : null;

/** The worker did not start or broke down: said once a section. */
export const CannotCompute = ({ failed }: { readonly failed: boolean }) =>
  failed ? (
    <p class="field-issue" role="alert">
      This page could not start its calculations. Load it again.
    </p>
  ) : null;
