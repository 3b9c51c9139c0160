import { blendNames } from "../../calculations/index.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { ComposeBlend } from "./compose-blend.tsx";
import { OWN, partsText } from "./chosen.ts";
import type { FieldDraft } from "../fields/field-draft.ts";
import { fluidDraft } from "./fluid-draft.ts";
import { SubstancePick } from "./substance-pick.tsx";

interface Props {
  readonly initial: string;
  readonly issue: string | undefined;
  /** Of which page; of the fluids' unless told. */
  readonly draft?: FieldDraft;
}

/** A pure fluid, a blend with a name, or a composition typed by hand. */
export function ChooseSubstance({ initial, issue, draft = fluidDraft }: Props) {
  const id = `${draft.prefix}-substance`;
  const value = draft.field("substance", initial);
  const blend = blendNames.find(({ name }) => name === value);
  const parts = partsText(value);
  return (
    <>
      <FieldFrame id={id} label="Fluid or blend" issue={value === OWN ? undefined : issue}>
        <SubstancePick
          id={id}
          value={value}
          own
          onChange={(substance) => {
            draft.change({ substance });
          }}
        />
      </FieldFrame>
      {parts !== undefined && (
        <p class="quiet">
          {parts} by mass. {blend?.note}
        </p>
      )}
      {value === OWN && <ComposeBlend issue={issue} draft={draft} />}
    </>
  );
}
