import { useEffect, useRef } from "preact/hooks";
import type { Check, Verification } from "../../report/index.ts";
import { type GivenFile, givenFile, takeLogOf } from "./given-file.ts";

type Checked = Extract<Verification, { kind: "checked" }>;

const names: Readonly<Record<Check["name"], string>> = {
  bytes: "The file",
  signature: "Signature",
  log: "The log",
  figures: "The figures",
  page: "The page",
};

/** A report that was dropped or chosen, worked out again from its own readings. */
export function CheckedReport() {
  const given = givenFile.value;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (given.kind === "working" || given.kind === "checked") heading.current?.focus();
  }, [given.kind]);
  if (given.kind !== "working" && given.kind !== "checked") return null;
  return (
    <section class="sheet checked" aria-labelledby="checked" aria-busy={given.kind === "working"}>
      <h2 id="checked" tabIndex={-1} ref={heading}>
        {titleOf(given)}
      </h2>
      <p class="quiet">{given.name}</p>
      {given.kind === "working" ? (
        <p role="status">Working out every figure again from the readings in the file.</p>
      ) : given.seen.kind === "not-a-report" ? (
        <p>Nothing can be said about it: {given.seen.why}.</p>
      ) : (
        <Findings seen={given.seen} />
      )}
      {given.kind === "checked" && (
        <button
          type="button"
          class="button"
          onClick={() => {
            givenFile.value = { kind: "none" };
          }}
        >
          Close
        </button>
      )}
    </section>
  );
}

function titleOf(given: Extract<GivenFile, { kind: "working" | "checked" }>): string {
  if (given.kind === "working") return "Checking the file";
  if (given.seen.kind === "not-a-report") return "This file is no sealed report";
  return given.seen.sound ? "This report holds" : "This report does not hold";
}

function Findings({ seen }: { readonly seen: Checked }) {
  return (
    <>
      <ul class="checks">
        {seen.checks.map((check) => (
          <li key={check.name} class={`check-${check.outcome}`}>
            <Shape outcome={check.outcome} />
            <div>
              <strong>
                {names[check.name]}: {words[check.outcome]}
              </strong>
              <p>{check.sentence}</p>
            </div>
          </li>
        ))}
      </ul>
      {seen.differences.length > 0 && <Differences seen={seen} />}
      {seen.signedBy === undefined ? (
        <p>
          Without a signature the file does not say who wrote it. That its figures follow from its
          readings does not show that the readings were taken.
        </p>
      ) : (
        <p class="publish-key">
          Public key of the signature: <code>{seen.signedBy}</code> Compare it with the key that its
          author told you.
        </p>
      )}
      <button type="button" class="button button-main" onClick={() => void takeLogOf(seen)}>
        Take its log in
      </button>
      {!seen.sound && (
        <p class="quiet">
          Its log is as the file has it now; what was altered cannot be told from it.
        </p>
      )}
    </>
  );
}

const words: Readonly<Record<Check["outcome"], string>> = {
  holds: "holds",
  fails: "fails",
  "not-asked": "not asked",
};

/** Tick, cross and dash: told apart without colour. */
const strokes: Readonly<Record<Check["outcome"], string>> = {
  holds: "M5 12.5 10 17 19 7",
  fails: "M6 6 18 18M18 6 6 18",
  "not-asked": "M6 12H18",
};
const Shape = ({ outcome }: { readonly outcome: Check["outcome"] }) => (
  <svg width="24" height="24" viewBox="0 0 24 24" aria-hidden="true">
    <path d={strokes[outcome]} />
  </svg>
);

function Differences({ seen }: { readonly seen: Checked }) {
  return (
    <div class="table-room" role="region" aria-label="Differences" tabIndex={0}>
      <table class="table">
        <caption>Stated in the file, and what follows from its readings (SI)</caption>
        <thead>
          <tr>
            <th scope="col">Figure</th>
            <th scope="col">Stated</th>
            <th scope="col">Follows</th>
          </tr>
        </thead>
        <tbody>
          {seen.differences.map(({ at, stated, recomputed }) => (
            <tr key={at}>
              <th scope="row">{at.replaceAll(".", " › ")}</th>
              <td class="figure">{said(stated)}</td>
              <td class="figure">{said(recomputed)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const said = (value: unknown): string =>
  value === undefined ? "nothing" : JSON.stringify(value).slice(0, 80);
