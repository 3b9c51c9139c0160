import { logSeal, parseExport, type StoredEvent } from "../../trial/index.ts";
import { type Difference, differences } from "./differences.ts";
import { type CarriedData, openPage } from "./sealed-page.ts";
import { isSigned } from "./signature.ts";

export type CheckName = "bytes" | "signature" | "log" | "figures" | "page";

export interface Check {
  readonly name: CheckName;
  /** `not-asked`: there is no signature, or another version cannot give the same bytes. */
  readonly outcome: "holds" | "fails" | "not-asked";
  readonly sentence: string;
}

export type Verification =
  | { readonly kind: "not-a-report"; readonly why: string }
  | {
      readonly kind: "checked";
      /** Every check that was asked holds. */
      readonly sound: boolean;
      readonly checks: readonly Check[];
      readonly differences: readonly Difference[];
      readonly signedBy: string | undefined;
      readonly trial: string;
      /** Entries of the log that it carries, to be taken in. */
      readonly events: readonly StoredEvent[];
      readonly program: string;
    };

/** The same work again, by whoever checks. */
export interface Recompute {
  readonly program: string;
  /** Everything concluded from a log; the page that is written from it. */
  readonly figures: (events: readonly StoredEvent[], data: CarriedData) => unknown;
  readonly page: (events: readonly StoredEvent[], data: CarriedData) => string;
}

/** Other versions may round differently, and fitted figures follow their fit. */
const acrossVersions = 1e-6;

/**
 * Checks a report from its file alone: are its bytes as they were written, does its log have its seal, and
 * do its figures and its page follow from that log?
 *
 * Without a signature whoever can write the whole file anew can seal it anew: what then still holds is that
 * figures follow from readings, not who took the readings.
 */
export function verifyReport(html: string, again: Recompute): Verification {
  const opened = openPage(html);
  if (opened.kind === "not-sealed") return { kind: "not-a-report", why: opened.why };
  const { data, written, digest, signature } = opened;
  const log = parseExport(data.log);
  if (log.kind === "invalid") {
    return { kind: "not-a-report", why: "the log that it carries is not in order" };
  }
  const sameProgram = data.program === again.program;
  const parted = differences(
    data.figures,
    plain(again.figures(log.events, data)),
    sameProgram ? 0 : acrossVersions,
  );
  const checks: Check[] = [
    check("bytes", written === digest, [
      "No byte has changed since it was written.",
      "The file was changed after it was written.",
    ]),
    signature === undefined
      ? notAsked("signature", "It is not signed: the file does not say who wrote it.")
      : check("signature", isSigned(digest, signature), [
          `Signed with the key ${signature.publicKey.slice(0, 16)}…`,
          "The signature does not belong to this file.",
        ]),
    check("log", logSeal(log.events) === data.seal, [
      `The log has its seal: ${log.events.length} entries.`,
      "The log is not the one that was sealed.",
    ]),
    check("figures", parted.length === 0, [
      sameProgram
        ? "Every figure follows from the readings, to the last bit."
        : `Every figure follows from the readings within one in a million; it was written by version ${data.program}.`,
      `${parted.length} figures do not follow from the readings.`,
    ]),
    sameProgram
      ? check("page", again.page(log.events, data) === opened.page, [
          "The page, written again from the log, is the same.",
          "The page says other things than its log does.",
        ])
      : notAsked("page", "Another version writes another page; the figures were compared."),
  ];
  return {
    kind: "checked",
    sound: checks.every(({ outcome }) => outcome !== "fails"),
    checks,
    differences: parted,
    signedBy: signature?.publicKey,
    trial: log.trial,
    events: log.events,
    program: data.program,
  };
}

/** As it looks after a way through JSON, which knows no `undefined`. */
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value)) as unknown;

const check = (
  name: CheckName,
  holds: boolean,
  [good, bad]: readonly [good: string, bad: string],
): Check => ({ name, outcome: holds ? "holds" : "fails", sentence: holds ? good : bad });

const notAsked = (name: CheckName, sentence: string): Check => ({
  name,
  outcome: "not-asked",
  sentence,
});
