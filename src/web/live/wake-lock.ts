import { useEffect, useState } from "preact/hooks";

/** What became of the wish to keep the screen awake. */
export type Awake = "kept" | "not-offered" | "asleep";

/** Keeps the screen awake while the caller is shown and wants it; asks again when the page comes back. */
export function useWakeLock(wanted: boolean): Awake {
  const [state, setState] = useState<Awake>("asleep");
  useEffect(() => {
    if (!wanted) {
      setState("asleep");
      return undefined;
    }
    if (!("wakeLock" in navigator)) {
      setState("not-offered");
      return undefined;
    }
    let lock: WakeLockSentinel | undefined;
    let ended = false;
    const take = async (): Promise<void> => {
      if (document.visibilityState !== "visible") return;
      try {
        const taken = await navigator.wakeLock.request("screen");
        lock = taken;
        if (ended) await taken.release();
        else setState("kept");
      } catch {
        setState("not-offered");
      }
    };
    const again = (): void => void take();
    document.addEventListener("visibilitychange", again);
    void take();
    return () => {
      ended = true;
      document.removeEventListener("visibilitychange", again);
      void lock?.release();
    };
  }, [wanted]);
  return state;
}
