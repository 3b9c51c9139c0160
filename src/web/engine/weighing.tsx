import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

/**
 * Weighs what is in the cans beside a page whose cautions hang on it. It is loaded after the page and waits for
 * nothing: without it the page warns of the worst.
 */
export function Weighing() {
  const [Part, setPart] = useState<ComponentType>();
  useEffect(() => {
    import("./weigher.tsx").then(
      ({ Weigher }) => {
        setPart(() => Weigher);
      },
      () => undefined,
    );
  }, []);
  return Part ? <Part /> : null;
}
