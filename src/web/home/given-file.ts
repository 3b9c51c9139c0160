import { signal } from "@preact/signals";
import type { Verification } from "../../report/index.ts";
import { type ParsedExport, parseExport, parseLogTable } from "../../trial/index.ts";
import { checkedReport } from "../engine/report-work.ts";
import { takeIn } from "../shell/log-keeper.ts";
import { go } from "../shell/route.ts";
import { jsonOf } from "./json-of.ts";

/** What became of a file that was chosen or dropped. */
export type GivenFile =
  | { readonly kind: "none" }
  | { readonly kind: "working"; readonly name: string }
  | { readonly kind: "unusable"; readonly sentence: string }
  | { readonly kind: "checked"; readonly name: string; readonly seen: Verification };

export const givenFile = signal<GivenFile>({ kind: "none" });

/** Takes in a trial file or a log table; checks a report and offers its log. */
export async function takeFile(file: File): Promise<void> {
  givenFile.value = { kind: "working", name: file.name };
  const text = await file.text();
  if (/^\s*</.test(text) || /\.html?$/i.test(file.name)) {
    const seen = await checkedReport(text);
    givenFile.value =
      seen === undefined
        ? unusable("This device could not check the report. Load the page again and try once more.")
        : { kind: "checked", name: file.name, seen };
    return;
  }
  const parsed = /^\s*\{/.test(text) ? parseExport(jsonOf(text)) : parseLogTable(text);
  givenFile.value = (await takenIn(parsed)) ?? { kind: "none" };
}

const unusable = (sentence: string): GivenFile => ({ kind: "unusable", sentence });

async function takenIn(parsed: ParsedExport): Promise<GivenFile | undefined> {
  if (parsed.kind === "invalid") {
    const [first] = parsed.issues;
    return unusable(
      first === undefined
        ? "This is not a trial file. Choose one that was saved with “Export the trial file”."
        : `This is not a whole trial file: ${first.field} should be ${first.accepted}.`,
    );
  }
  const refused = await takeIn(parsed.events);
  if (refused !== undefined) return unusable(refused);
  go("trial", parsed.trial, "stage", "plan", "-");
  return undefined;
}

/** The log that a checked report carries, beside the others on this device. */
export async function takeLogOf(seen: Extract<Verification, { kind: "checked" }>): Promise<void> {
  const refused = await takeIn(seen.events);
  if (refused !== undefined) {
    givenFile.value = unusable(refused);
    return;
  }
  givenFile.value = { kind: "none" };
  go("trial", seen.trial, "stage", "plan", "-");
}
