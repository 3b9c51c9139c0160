import { type VerdictKind, VerdictWord } from "../../report/index.ts";

export interface Judged {
  readonly title: string;
  readonly kind: VerdictKind;
  readonly word: string;
}

/** Outside first: it is what is looked for. */
const order: readonly VerdictKind[] = ["higher", "lower", "undecided", "within"];

/** Several verdicts in a line: what lies outside its band is named, what is alike is counted. */
export function VerdictCounts({ judged }: { readonly judged: readonly Judged[] }) {
  const alike = new Map<string, Judged[]>();
  for (const one of judged) {
    const key = `${order.indexOf(one.kind)} ${one.word}`;
    alike.set(key, [...(alike.get(key) ?? []), one]);
  }
  return (
    <>
      {[...alike]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([key, group]) => (
          <VerdictWord key={key} kind={group[0]?.kind ?? "undecided"} word={wordsOf(group)} />
        ))}
    </>
  );
}

function wordsOf(group: readonly Judged[]): string {
  const { kind, word } = group[0] ?? { word: "" };
  if (kind === "higher" || kind === "lower")
    return `${group.map(({ title }) => title).join(", ")}: ${word}`;
  return group.length > 1 ? `${word} (${group.length})` : word;
}
