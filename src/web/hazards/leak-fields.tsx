import { type Answer, ventilationChoices } from "../../calculations/index.ts";
import { standInSentence } from "../../report/index.ts";
import type { HazardFinding } from "../../trial/index.ts";
import type { FieldDraft } from "../fields/field-draft.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { Pick } from "../fields/pick.tsx";
import { Segments } from "../fields/segments.tsx";
import { FluidQuantity, issueOf } from "../fluids/fields.tsx";
import { SubstancePick } from "../fluids/substance-pick.tsx";
import { escapes, type LeakBoardCase } from "./leak-case.ts";

interface Props {
  readonly draft: FieldDraft;
  readonly asked: LeakBoardCase;
  readonly answer: Answer | undefined;
}

/** Why this fluid stands there at first. */
function takenHint(subject: HazardFinding): string | undefined {
  switch (subject.takenAs?.because) {
    case "identified":
      return "As it was identified in this trial.";
    case "worst":
      return `${standInSentence(subject)} Choose another to see what that would do; it proves nothing.`;
    case "label":
      return "As the vehicle’s label says.";
    case undefined:
      return undefined;
  }
}

/** What escapes, into how much air, how quickly, and what moves that air. */
export function LeakFields({ draft, asked, answer }: Props) {
  const { subject, place, substance, mixture, specs, escape, ventilation, blower } = asked;
  return (
    <>
      <Segments
        name="hazards-place"
        label="Where it leaks"
        value={place}
        options={[
          { value: "cabin", label: "Into the cabin" },
          { value: "bay", label: "Into the bay" },
        ]}
        onChange={(value) => {
          draft.change({ place: value });
        }}
      />
      <FieldFrame id="hazards-substance" label="Taken as" hint={takenHint(subject)}>
        <SubstancePick
          id="hazards-substance"
          value={substance}
          identified={mixture}
          onChange={(name) => {
            draft.change({ [`substance ${subject.product}`]: name });
          }}
        />
      </FieldFrame>
      <div class="field-row">
        <FluidQuantity
          key={specs.mass.name}
          spec={specs.mass}
          draft={draft}
          issue={issueOf(answer, "mass")}
        />
        <FluidQuantity
          key={specs.volume.name}
          spec={specs.volume}
          draft={draft}
          issue={issueOf(answer, "volume")}
        />
      </div>
      <Segments
        name="hazards-escape"
        label="How it escapes"
        value={escape}
        options={escapes}
        onChange={(value) => {
          draft.change({ escape: value });
        }}
      />
      {escape !== "at-once" && (
        <FluidQuantity spec={specs.hole} draft={draft} issue={issueOf(answer, "hole")} />
      )}
      <FieldFrame
        id="hazards-ventilation"
        label="Fresh air"
        hint="An assumption that you choose: measurements scatter by a factor of three and more, and these are their low ends."
      >
        <Pick
          id="hazards-ventilation"
          value={ventilation}
          empty="No fresh air at all"
          options={ventilationChoices.map(({ name, words, changes }) => ({
            value: name,
            label: `${words.replace(/^./u, (letter) => letter.toUpperCase())}: ${changes} changes an hour`,
          }))}
          onChange={(value) => {
            draft.change({ ventilation: value === "" ? "sealed" : value });
          }}
        />
      </FieldFrame>
      <Segments
        name="hazards-blower"
        label="Blower"
        value={blower}
        options={[
          { value: "off", label: "Blower off", hint: "vapour lies at the floor" },
          { value: "on", label: "Blower on", hint: "the air is stirred" },
        ]}
        onChange={(value) => {
          draft.change({ blower: value });
        }}
      />
    </>
  );
}
