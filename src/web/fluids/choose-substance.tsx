import { blendNames } from "../../calculations/index.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { ComposeBlend } from "./compose-blend.tsx";
import { OWN, partsText } from "./chosen.ts";
import { changeFluidDraft, fluidField } from "./fluid-draft.ts";
import { SubstancePick } from "./substance-pick.tsx";

interface Props {
  readonly initial: string;
  readonly issue: string | undefined;
}

/** A pure fluid, a blend with a name, or a composition typed by hand. */
export function ChooseSubstance({ initial, issue }: Props) {
  const value = fluidField("substance", initial);
  const blend = blendNames.find(({ name }) => name === value);
  const parts = partsText(value);
  return (
    <>
      <FieldFrame
        id="fluids-substance"
        label="Fluid or blend"
        issue={value === OWN ? undefined : issue}
      >
        <SubstancePick
          id="fluids-substance"
          value={value}
          own
          onChange={(substance) => {
            changeFluidDraft({ substance });
          }}
        />
      </FieldFrame>
      {parts !== undefined && (
        <p class="quiet">
          {parts} by mass. {blend?.note}
        </p>
      )}
      {value === OWN && <ComposeBlend issue={issue} />}
    </>
  );
}
