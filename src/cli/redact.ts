import {
  exportTrial,
  type Hidable,
  hidables,
  parseExport,
  type Redacted,
  redacted,
  type StoredEvent,
} from "../trial/index.ts";
import type { CliDeps } from "./deps.ts";
import { outputOn } from "./output.ts";

export interface RedactOptions {
  readonly redact?: string;
  readonly hide?: string;
}

/** `names` stands for those of people's things; every kind can also be named alone. */
const groups: Readonly<Record<string, readonly Hidable[]>> = {
  names: ["devices", "vehicle", "instruments"],
  ...Object.fromEntries(hidables.map((one) => [one, [one]])),
};
export const redactHelp = `hide these before it leaves: ${Object.keys(groups).join(",")}`;
export const hideHelp = "hide these words wherever they stand, separated by commas";

type Outcome =
  | { readonly kind: "events"; readonly events: readonly StoredEvent[] }
  | { readonly kind: "refused"; readonly why: string };

const parts = (list: string | undefined): string[] =>
  (list ?? "")
    .split(",")
    .map((part) => part.trim())
    .filter((part) => part !== "");

/** The log as it may leave; what was replaced goes to standard error. */
export async function redactedLog(
  deps: CliDeps,
  events: readonly StoredEvent[],
  options: RedactOptions,
): Promise<Outcome> {
  const [named, words] = [parts(options.redact), parts(options.hide)];
  if (named.length + words.length === 0) return { kind: "events", events };
  const unknown = named.find((name) => !(name in groups));
  if (unknown !== undefined) {
    const why = `--redact does not know ${unknown}; it knows ${Object.keys(groups).join(", ")}.`;
    return { kind: "refused", why };
  }
  const short = words.find((word) => word.length < 3);
  if (short !== undefined) {
    return { kind: "refused", why: `--hide needs words of three letters or more, not ${short}.` };
  }
  const log = parseExport(exportTrial(events));
  if (log.kind === "invalid") {
    return { kind: "refused", why: "the log holds entries that are not in order." };
  }
  const hide = named.flatMap((name) => groups[name] ?? []);
  const done = redacted(log.events, { hide, words });
  await outputOn(deps.stderr).write(listOf(done));
  return { kind: "events", events: done.events };
}

const listOf = ({ replaced, kept }: Redacted): string =>
  [
    ...replaced.map(({ was, now, times }) => `${shortened(was)} → ${now} (${times})\n`),
    ...kept.map(({ word, where }) => `STAYS: ${word} in ${where}: it is read for a figure\n`),
  ].join("");

const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 59)}…` : text);
