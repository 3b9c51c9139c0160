import type { ComponentChildren } from "preact";
import { preferences } from "./preferences.ts";
import { pathTo } from "./route.ts";

interface Props {
  readonly trial: string;
  readonly parts: readonly string[];
}

/** Phone navigation, where the thumb is. It gives way to the save bar while a step is being filled. */
export function BottomNav({ trial, parts }: Props) {
  const inStep =
    ["add", "correct"].includes(parts[0] ?? "") || (parts[0] === "stage" && parts.length > 3);
  if (inStep) return null;
  const remembered = preferences.value.places[trial];
  const stage =
    parts[0] === "stage"
      ? parts.slice(0, 3)
      : remembered?.[0] === "stage"
        ? remembered.slice(0, 3)
        : ["stage", "plan", "-"];
  const item = (name: string, to: readonly string[], icon: ComponentChildren) => (
    <a href={pathTo("trial", trial, ...to)} aria-current={parts[0] === to[0] ? "page" : undefined}>
      <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
        {icon}
      </svg>
      {name}
    </a>
  );
  return (
    <nav class="bottom-nav" aria-label="Main">
      {item("Now", stage, <path d="M4 5h16M4 12h10M4 19h7" />)}
      {item("Stages", ["stages"], <path d="M4 4h6v6H4zM14 4h6v6h-6zM4 14h6v6H4zM14 14h6v6h-6z" />)}
      {item("Grams", ["grams"], <path d="M5 20V9M12 20V4M19 20v-8M3 20h18" />)}
      {item("Fluids", ["fluids"], <path d="M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z" />)}
      {item("Log", ["log"], <path d="M5 4h14v16H5zM8 9h8M8 13h8M8 17h5" />)}
    </nav>
  );
}
