interface Props {
  readonly status: "not-started" | "open" | "done";
}

/** Shape, not colour, tells how far a stage is: empty, half, ticked. */
export function StatusMark({ status }: Props) {
  return (
    <svg class={`mark mark-${status}`} viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
      <rect x="2" y="2" width="16" height="16" rx="2" class="mark-box" />
      {status === "open" && <path d="M2 10h16v8H2z" class="mark-half" />}
      {status === "done" && <path d="M5 10.5 8.8 14 15 6.5" class="mark-tick" />}
    </svg>
  );
}
