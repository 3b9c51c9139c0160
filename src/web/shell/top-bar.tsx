import { pathTo } from "./route.ts";
import { SafetyChip } from "./safety-chip.tsx";

interface Props {
  readonly title?: string;
  readonly demonstration?: boolean;
}

/** Which trial this is, and whether it is safe. */
export function TopBar({ title, demonstration = false }: Props) {
  return (
    <header class="top-bar">
      <a class="top-home" href={pathTo()} aria-label="All trials">
        <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
          <rect x="2" y="9" width="20" height="6" class="mark-band" />
          <path d="M15 4v16M12 4h6M12 20h6" class="mark-pin" />
        </svg>
        <span>Coldproof</span>
      </a>
      <p class="top-title">
        {title ?? ""}
        {demonstration && <span class="tag">Demonstration</span>}
      </p>
      <SafetyChip />
      <a class="top-settings" href={pathTo("settings")}>
        Settings
      </a>
    </header>
  );
}
