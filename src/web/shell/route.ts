import { computed, signal } from "@preact/signals";

/** Where the user is: the hash, cut at its slashes and decoded. `#/trial/<id>/stage/prove` and so on. */
export const hash = signal(location.hash);

/** The place before this one, within the app. */
let before: string | undefined;

addEventListener("hashchange", () => {
  before = hash.value;
  hash.value = location.hash;
});

export const place = computed<readonly string[]>(() =>
  hash.value
    .replace(/^#\/?/, "")
    .split("/")
    .filter((part) => part !== "")
    .map(decoded),
);

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

export const pathTo = (...parts: readonly string[]): string =>
  `#/${parts.map((part) => encodeURIComponent(part)).join("/")}`;

export function go(...parts: readonly string[]): void {
  location.hash = pathTo(...parts);
}

/** After a form: to where it was opened from, or to `otherwise` when the app began here. */
export function goBackTo(...otherwise: readonly string[]): void {
  history.replaceState(null, "", before ?? pathTo(...otherwise));
  hash.value = location.hash;
}

/** Goes on without leaving the present place in the history: after a save, Back skips the filled form. */
export function goInstead(...parts: readonly string[]): void {
  history.replaceState(null, "", pathTo(...parts));
  hash.value = location.hash;
}
