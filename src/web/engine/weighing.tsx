import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

/** What the page itself has worked out comes first: one worker answers all, ms. */
const AFTER = 1500;

/**
 * Weighs what is in the cans beside a page whose cautions hang on it. It is loaded after the page and waits for
 * nothing: without it the page warns of the worst.
 */
export function Weighing() {
  const [Part, setPart] = useState<ComponentType>();
  useEffect(() => {
    const timer = setTimeout(() => {
      import("./weigher.tsx").then(
        ({ Weigher }) => {
          setPart(() => Weigher);
        },
        () => undefined,
      );
    }, AFTER);
    return () => {
      clearTimeout(timer);
    };
  }, []);
  return Part ? <Part /> : null;
}
