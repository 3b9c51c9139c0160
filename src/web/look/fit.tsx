import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";

interface Props {
  readonly children: (width: number) => ComponentChildren;
}

/** px; narrower than this a place is still being laid out, and no picture has room. */
const narrowest = 160;

/** Pictures are drawn one to one at their width: this measures the room they have. */
export function Fit({ children }: Props) {
  const room = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = room.current;
    if (!element) return undefined;
    const measure = (): void => {
      setWidth(Math.floor(element.clientWidth));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => {
      observer.disconnect();
    };
  }, []);
  return (
    <div class="fit" ref={room}>
      {width >= narrowest && children(width)}
    </div>
  );
}
