/** Compares a trial's products in equal conditions off the page's thread; whoever stops it ends the worker. */
import "../shell/no-eval.ts";
import { fairComparisonOf, project } from "../../trial/index.ts";
import type { FairMessage, FairRequest } from "./fair-message.ts";

interface Scope {
  addEventListener(type: "message", act: (event: { readonly data: FairRequest }) => void): void;
  postMessage(message: FairMessage): void;
}
const scope = self as unknown as Scope;

/** Progress that is smaller is not seen. */
const STEP = 0.01;

scope.addEventListener("message", ({ data: { events } }) => {
  let told = 0;
  const found = fairComparisonOf(project(events), {
    progress: (share) => {
      if (share >= told + STEP) {
        scope.postMessage({ kind: "progress", share });
        told = share;
      }
      return true;
    },
  });
  scope.postMessage({ kind: "found", found });
});
