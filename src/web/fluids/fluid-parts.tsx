import type { ComponentChildren } from "preact";
import { changeFluidDraft, fluidField } from "./fluid-draft.ts";

const parts = [
  { name: "numbers", label: "Numbers" },
  { name: "safety", label: "Safety" },
  { name: "charts", label: "Charts" },
  { name: "vessel", label: "Vessel" },
  { name: "air", label: "Air in it" },
] as const;
type PartName = (typeof parts)[number]["name"];

const openPart = (): string => fluidField("open", "numbers");

/** On a phone one part is open at a time; at a desk all of them are, and this list is not shown. */
export const PartList = () => (
  <div class="fluids-parts" role="group" aria-label="Parts of this page">
    {parts.map(({ name, label }) => (
      <button
        key={name}
        type="button"
        aria-pressed={openPart() === name}
        onClick={() => {
          changeFluidDraft({ open: name });
        }}
      >
        {label}
      </button>
    ))}
  </div>
);

interface PartProps {
  readonly name: PartName;
  readonly children: ComponentChildren;
}

export const Part = ({ name, children }: PartProps) => (
  <div class={openPart() === name ? "fluids-part" : "fluids-part is-behind"}>{children}</div>
);
