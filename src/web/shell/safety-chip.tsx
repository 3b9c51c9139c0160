import { spokenInstant } from "../forms/instant.ts";
import { pathTo } from "./route.ts";
import { safety, type Safety } from "./synchronising.ts";

const entries = (n: number): string => (n === 1 ? "1 entry" : `${n} entries`);

/** Where the log is safe: on the server too, or on this device only. */
export function SafetyChip() {
  const { waiting, server, refused, last, live } = safety.value;
  const safe = waiting === 0 && refused === 0;
  const word = safe
    ? server === "reached"
      ? "Saved"
      : "Saved here"
    : `${entries(waiting + refused)} only here`;
  return (
    <details
      class={safe ? "safety" : "safety is-waiting"}
      onKeyDown={(event) => {
        if (event.key !== "Escape" || !event.currentTarget.open) return;
        event.currentTarget.open = false;
        event.currentTarget.querySelector("summary")?.focus();
      }}
    >
      <summary>
        <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
          {safe ? <path d="M2 8.5 6.5 13 14 4" /> : <path d="M8 2v8M8 13v1" />}
        </svg>
        <span role="status">{word}</span>
      </summary>
      <div class="safety-more">
        <p>Every entry is on this device’s disk before it counts as saved.</p>
        <p>{sentence(waiting, server)}</p>
        <p class="quiet">
          {last === undefined
            ? "Nothing was exchanged with a server yet."
            : `Last exchanged with the server ${spokenInstant(last)}.`}
          {live && server === "reached" && " What others write appears here at once."}
        </p>
        <Waiting safety={safety.value} />
        {refused > 0 && (
          <p>
            {entries(refused)} stay here for good: the server holds other contents under the same
            number. Export the trial to keep them.
          </p>
        )}
        {server === "no-key" && (
          <a class="button" href={pathTo("pair")}>
            Pair this device
          </a>
        )}
      </div>
    </details>
  );
}

/** Which entries only this device holds, first ones first. */
function Waiting({ safety: { first, waiting } }: { readonly safety: Safety }) {
  if (first.length === 0) return null;
  return (
    <details>
      <summary>Which entries are only here</summary>
      <ol class="safety-list">
        {first.map(({ id, trial, type, at }) => (
          <li key={id}>
            <a href={pathTo("trial", trial, "log", id)}>{type.replaceAll("-", " ")}</a>,{" "}
            {spokenInstant(at)}
          </li>
        ))}
      </ol>
      {waiting > first.length && <p>and {waiting - first.length} more</p>}
    </details>
  );
}

function sentence(waiting: number, server: Safety["server"]): string {
  const later = waiting === 0 ? "" : ` ${entries(waiting)} will follow when it answers.`;
  switch (server) {
    case "reached":
      return waiting === 0
        ? "The server holds all of it too."
        : `${entries(waiting)} are on the way.`;
    case "away":
      return `The server does not answer. Go on working; nothing is lost.${later}`;
    case "cannot-write":
      return `The server answers but cannot take entries now.${later}`;
    case "not-understood":
      return `The server’s answer is of another version. Load this page again.${later}`;
    case "no-key":
      return "The server does not know this device. What is here stays here until the device is paired.";
    case "may-not-write":
      return "This device may only read on the server. What is written here stays here.";
    case "other-workspace":
      return "The server serves another workspace than the one whose log this is. What is here stays here.";
    case "unknown":
      return "The server has not been asked yet.";
  }
}
