import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import type { FairComparison, StoredEvent } from "../../trial/index.ts";
import type { FairMessage, FairRequest } from "./fair-message.ts";

export type FairState =
  | { readonly kind: "working"; readonly share: number }
  | { readonly kind: "stopped" }
  | { readonly kind: "failed" }
  | { readonly kind: "found"; readonly found: FairComparison };

/** What was found for a log is kept while the log stays the same. */
const known = new WeakMap<readonly StoredEvent[], FairComparison>();

/** The comparison in equal conditions of a log, worked out in a worker of its own. */
export function useFair(events: readonly StoredEvent[]): {
  readonly state: FairState;
  readonly stop: () => void;
  readonly again: () => void;
} {
  const [state, setState] = useState<FairState>({ kind: "working", share: 0 });
  const [round, setRound] = useState(0);
  const worker = useRef<Worker | undefined>(undefined);
  useEffect(() => {
    const before = known.get(events);
    if (before) {
      setState({ kind: "found", found: before });
      return undefined;
    }
    setState({ kind: "working", share: 0 });
    // The build puts the worker there: it shares the app's own parts, so that they are kept once.
    const mine = new Worker("/assets/fair-worker.js", { type: "module" });
    worker.current = mine;
    mine.addEventListener("message", ({ data }: MessageEvent<FairMessage>) => {
      if (data.kind === "progress") setState({ kind: "working", share: data.share });
      else {
        known.set(events, data.found);
        setState({ kind: "found", found: data.found });
        mine.terminate();
      }
    });
    mine.addEventListener("error", () => {
      setState({ kind: "failed" });
      mine.terminate();
    });
    mine.postMessage({ events } satisfies FairRequest);
    return () => {
      mine.terminate();
    };
  }, [events, round]);
  const stop = useCallback(() => {
    worker.current?.terminate();
    setState({ kind: "stopped" });
  }, []);
  const again = useCallback(() => {
    setRound((count) => count + 1);
  }, []);
  return { state, stop, again };
}
