import type { ComponentChildren } from "preact";
import type { FieldDraft } from "../fields/field-draft.ts";

const parts = [
  { name: "setting", label: "Setting" },
  { name: "reads", label: "Reads" },
  { name: "diagnose", label: "Diagnose" },
  { name: "what-if", label: "What if" },
  { name: "sweeps", label: "Sweeps" },
  { name: "refine", label: "Refine" },
] as const;
export type PartName = (typeof parts)[number]["name"];

const openPart = ({ field }: FieldDraft): string => field("open", "setting");

/** On a phone one part is open at a time; at a desk all of them are, and this list is not shown. */
export const PartList = ({ draft }: { readonly draft: FieldDraft }) => (
  <div class="fluids-parts" role="group" aria-label="Parts of this page">
    {parts.map(({ name, label }) => (
      <button
        key={name}
        type="button"
        aria-pressed={openPart(draft) === name}
        onClick={() => {
          draft.change({ open: name });
        }}
      >
        {label}
      </button>
    ))}
  </div>
);

interface PartProps {
  readonly name: PartName;
  readonly draft: FieldDraft;
  readonly children: ComponentChildren;
}

export const Part = ({ name, draft, children }: PartProps) => (
  <div class={openPart(draft) === name ? "fluids-part" : "fluids-part is-behind"}>{children}</div>
);
