import { safety } from "./log-keeper.ts";

const entries = (n: number): string => (n === 1 ? "1 entry" : `${n} entries`);

/** Where the log is safe: on the server too, or on this device only. */
export function SafetyChip() {
  const { waiting, server, refused } = safety.value;
  const safe = waiting === 0 && refused === 0;
  const word = safe
    ? server === "reached"
      ? "On the server"
      : "On this device"
    : `${entries(waiting + refused)} only here`;
  return (
    <details class={safe ? "safety" : "safety is-waiting"}>
      <summary>
        <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
          {safe ? <path d="M2 8.5 6.5 13 14 4" /> : <path d="M8 2v8M8 13v1" />}
        </svg>
        <span role="status">{word}</span>
      </summary>
      <div class="safety-more">
        <p>Every entry is on this device’s disk before it counts as saved.</p>
        <p>{sentence(waiting, server)}</p>
        {refused > 0 && (
          <p>
            {entries(refused)} stay here for good: the server holds other contents under the same
            number. Export the trial to keep them.
          </p>
        )}
      </div>
    </details>
  );
}

function sentence(waiting: number, server: string): string {
  const later = waiting === 0 ? "" : ` ${entries(waiting)} will follow when it answers.`;
  switch (server) {
    case "reached":
      return waiting === 0 ? "The server holds all of it too." : `${entries(waiting)} are on the way.`;
    case "away":
      return `The server does not answer. Go on working; nothing is lost.${later}`;
    case "cannot-write":
      return `The server answers but cannot write to its disk now.${later}`;
    case "not-understood":
      return `The server’s answer is of another version. Load this page again.${later}`;
    default:
      return "The server has not been asked yet.";
  }
}
