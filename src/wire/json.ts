/** What is wrong with something from outside: where, what came, what would have been taken. */
export interface WireIssue {
  readonly field: string;
  readonly value: unknown;
  readonly accepted: string;
}

export type JsonOutcome =
  | { readonly kind: "json"; readonly value: unknown }
  | { readonly kind: "invalid"; readonly issues: readonly WireIssue[] };

/** No request here nests more than ten deep; walkers that call themselves stay far from the stack's end. */
export const maximumDepth = 64;

/**
 * Reads JSON text that anybody may have written.
 *
 * @param text  any text.
 * @param field what to call the whole text in an issue.
 * @returns `json` with the value, or `invalid` when it does not parse or nests deeper than `maximumDepth`.
 */
export function parseJson(text: string, field: string): JsonOutcome {
  if (depth(text) > maximumDepth) {
    return invalid(field, excerpt(text), `JSON nested at most ${maximumDepth} deep`);
  }
  try {
    return { kind: "json", value: JSON.parse(text) as unknown };
  } catch {
    return invalid(field, excerpt(text), "valid JSON");
  }
}

function invalid(field: string, value: string, accepted: string): JsonOutcome {
  return { kind: "invalid", issues: [{ field, value, accepted }] };
}

/** The deepest nesting of brackets outside strings; exact for valid JSON, which is all that matters. */
function depth(text: string): number {
  let deepest = 0;
  let now = 0;
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (quoted) {
      if (c === 0x5c) i++;
      else if (c === 0x22) quoted = false;
    } else if (c === 0x22) quoted = true;
    else if (c === 0x5b || c === 0x7b) deepest = Math.max(deepest, ++now);
    else if (c === 0x5d || c === 0x7d) now--;
  }
  return deepest;
}

/** Enough to recognise the text by, without sending megabytes back. */
function excerpt(text: string): string {
  return text.length <= 80 ? text : `${text.slice(0, 80)}…`;
}
