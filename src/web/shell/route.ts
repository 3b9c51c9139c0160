import { computed, signal } from "@preact/signals";

/** Where the user is: the hash, cut at its slashes and decoded. `#/trial/<id>/stage/prove` and so on. */
export const hash = signal(location.hash);

addEventListener("hashchange", () => {
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

/** Goes on without leaving the present place in the history: after a save, Back skips the filled form. */
export function goInstead(...parts: readonly string[]): void {
  history.replaceState(null, "", pathTo(...parts));
  hash.value = location.hash;
}
