/** Between the app's windows on this device: they share a store, and each shows what it last read of it. */
let channel: BroadcastChannel | undefined;

/** To be told when another window kept, fetched or sent entries. */
export function hearWindows(act: () => void): void {
  channel = new BroadcastChannel("coldproof log");
  channel.addEventListener("message", act);
}

/** Tells the others to look. */
export function tellWindows(): void {
  channel?.postMessage("changed");
}
