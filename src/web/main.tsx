// The app: screens over the log, for one person at one vehicle.
// Knows: what is on the screen, where the user is, how the device keeps and sends the log.
// Must never know: physics, conversion factors, how a ledger is folded. Basis: typed quantities out, SI in.
import "./shell/no-eval.ts";
import "@preact/signals";
import "./look/app.css";
import { render } from "preact";
import { App } from "./shell/app.tsx";
import { CannotKeep } from "./shell/cannot-keep.tsx";
import { openFirst, startLogKeeper, theStore } from "./shell/log-keeper.ts";
import { registerOffline } from "./shell/offline.ts";
import { place } from "./shell/route.ts";
import { startSynchronising } from "./shell/synchronising.ts";

const root = document.getElementById("app");
if (!root) throw new Error("the page has no place for the app");

try {
  await startLogKeeper();
  const [page, trial] = place.value;
  if (page === "trial" && trial !== undefined) await openFirst(trial);
  render(<App />, root);
  await startSynchronising();
  registerOffline();
  // Old logs can wait; what is cut off goes on at the next start.
  setTimeout(
    () =>
      void theStore()
        .tidy()
        .catch(() => undefined),
    5000,
  );
} catch (error) {
  if (!(error instanceof DOMException)) throw error;
  render(<CannotKeep reason={error.message} />, root);
}
