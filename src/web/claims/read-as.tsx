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
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

/** A form to read a sentence otherwise than its words were read. */
export const ReadAs = ({ trial, claim, onSaved, onCancel }: Props) => (
  <>
    <p class="claim-text">“{claim.text}”</p>
    <EntryForm
      trial={trial}
      type="claim-read"
      formKey={`claim-read ${claim.product} ${claim.text}`}
      specs={specs}
      start={{ kind: claim.statements[0]?.reading.kind ?? "other" }}
      fixed={{ product: claim.product, text: claim.text }}
      saveLabel="Read it like this"
      onCancel={onCancel}
      onSaved={() => {
        say("Saved: how this claim is read.");
        onSaved();
      }}
    />
  </>
);
