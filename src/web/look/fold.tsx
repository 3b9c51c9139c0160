import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { isWide } from "./is-wide.ts";

interface Props {
  readonly title: string;
  /** What must be known without opening it: a verdict, a count. */
  readonly said?: ComponentChildren;
  /** Level of its heading. */
  readonly level?: 2 | 3;
  /** Open at once; left out, at a desk only. */
  readonly open?: boolean;
  /** A row of a sheet that holds several, instead of a sheet of its own. */
  readonly row?: boolean;
  /** A class for what styles by it. */
  readonly kind?: string;
  readonly children: ComponentChildren;
}

/** A part that can wait: it stands open at a desk and behind its title on a phone, and is drawn when it is opened. */
export function Fold({
  title,
  said,
  level = 3,
  open = isWide(),
  row = false,
  kind = "",
  children,
}: Props) {
  const [isOpen, setOpen] = useState(open);
  const Heading = level === 2 ? "h2" : "h3";
  return (
    <details
      class={`fold ${row ? "fold-row" : "sheet"} ${kind}`.trim()}
      open={isOpen}
      onToggle={(event) => {
        setOpen(event.currentTarget.open);
      }}
    >
      <summary>
        <span class="fold-head">
          <Heading>{title}</Heading>
          {said !== undefined && <span class="fold-said">{said}</span>}
        </span>
      </summary>
      {isOpen && <div class="fold-body">{children}</div>}
    </details>
  );
}
