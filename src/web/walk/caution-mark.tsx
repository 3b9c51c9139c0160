import type { Caution } from "../../trial/index.ts";

interface Props {
  readonly severity: Caution["severity"];
}

/** The shape before a caution: a filled octagon for a danger, an open triangle for the rest. */
export const CautionMark = ({ severity }: Props) => (
  <svg
    class={`caution-mark caution-mark-${severity}`}
    viewBox="0 0 24 24"
    width="24"
    height="24"
    aria-hidden="true"
  >
    <path
      d={severity === "danger" ? "M8 2h8l6 6v8l-6 6H8l-6-6V8z" : "M12 3 22 21H2z"}
      class="caution-shape"
    />
    <path
      d={severity === "danger" ? "M12 6v7M12 16v2" : "M12 10v5M12 17.5v1"}
      class="caution-bar"
    />
  </svg>
);
