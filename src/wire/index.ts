/**
 * Knows how JSON text from outside becomes a value that is safe to walk. Must never know what the
 * value means. Used by every door, so that none of them can be overrun by nesting.
 */
export { parseJson, maximumDepth } from "./json.ts";
export { parseLongList } from "./long-list.ts";
export type { JsonOutcome, WireIssue } from "./json.ts";
