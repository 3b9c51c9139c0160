import { claimKindNames } from "../../report/index.ts";
import { type ClaimFinding, type ClaimKind, claimKinds } from "../../trial/index.ts";
import type { FieldSpec } from "../forms/spec.ts";
import { EntryForm } from "../forms/entry-form.tsx";
import { say } from "../shell/notice.ts";

const mass = { dimensions: ["mass"], unit: { us: "oz", si: "g" } } as const;
const isKind =
  (...kinds: readonly ClaimKind[]) =>
  (draft: Readonly<Record<string, string>>): boolean =>
    kinds.some((kind) => kind === draft["kind"]);

/** How a person reads a sentence: its kind, and the figures that the kind needs. */
const specs: readonly FieldSpec[] = [
  {
    kind: "pick",
    name: "kind",
    label: "It says",
    options: () => claimKinds.map((kind) => ({ value: kind, label: claimKindNames[kind] })),
    none: "There is no kind of claim",
  },
  {
    kind: "quantity",
    name: "mass",
    label: "Mass of the product",
    optional: true,
    shown: isKind("equals-mass", "net-mass"),
    ...mass,
  },
  {
    kind: "quantity",
    name: "equals",
    label: "Mass that it is said to equal",
    shown: isKind("equals-mass"),
    ...mass,
  },
  {
    kind: "fluid",
    name: "of",
    label: "Of which refrigerant",
    none: "The label refrigerant",
    optional: true,
    shown: isKind("equals-mass", "contains"),
  },
  {
    kind: "number",
    name: "limit",
    label: "Global warming potential that it is not to pass",
    shown: isKind("gwp"),
  },
];

interface Props {
  readonly trial: string;
  readonly claim: ClaimFinding;
}

/** How the sentence was read, and a form to read it otherwise. */
export function ReadAs({ trial, claim }: Props) {
  const kinds = claim.statements.map(({ reading }) => claimKindNames[reading.kind]);
  const person = claim.readBy.kind === "person";
  return (
    <details class="claim-read">
      <summary>
        {person ? "Read by a person as: " : "Read by its words as: "}
        {kinds.join("; ")}
      </summary>
      <p class="quiet">
        If the sentence means something else, say so. The entry stays in the log and can be
        withdrawn there.
      </p>
      <EntryForm
        trial={trial}
        type="claim-read"
        formKey={`claim-read ${claim.product} ${claim.text}`}
        specs={specs}
        start={{ kind: claim.statements[0]?.reading.kind ?? "other" }}
        fixed={{ product: claim.product, text: claim.text }}
        saveLabel="Read it like this"
        onSaved={() => {
          say("Saved: how this claim is read.");
        }}
      />
    </details>
  );
}
