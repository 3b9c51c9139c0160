import { type Answer, vehiclePresets } from "../../calculations/index.ts";
import { describedBy, FieldFrame } from "../fields/field-frame.tsx";
import type { FieldDraft } from "../fields/field-draft.ts";
import { Segments } from "../fields/segments.tsx";
import { ChooseSubstance } from "../fluids/choose-substance.tsx";
import { FluidQuantity, issueOf } from "../fluids/fields.tsx";
import { prefer, preferences } from "../shell/preferences.ts";
import type { Given, VehicleCase } from "./vehicle-case.ts";
import type { VehicleSpecName } from "./vehicle-specs.ts";

interface Props {
  readonly draft: FieldDraft;
  readonly given: Given;
  readonly asked: VehicleCase;
  readonly answer: Answer | undefined;
}

/** What the vehicle is, what is in it. */
export function VehicleSheet({ draft, given, asked, answer }: Props) {
  const { preset } = asked;
  const presetId = `${draft.prefix}-preset`;
  return (
    <section class="sheet" aria-labelledby="vehicle-kind">
      <h2 id="vehicle-kind">The vehicle and what is in it</h2>
      <FieldFrame id={presetId} label="Kind of vehicle">
        <select
          id={presetId}
          class="pick"
          value={preset.name}
          aria-describedby={describedBy(presetId)}
          onChange={(event) => {
            draft.change({ preset: event.currentTarget.value });
          }}
        >
          {vehiclePresets.map(({ name, title }) => (
            <option key={name} value={name} selected={name === preset.name}>
              {title}
            </option>
          ))}
        </select>
      </FieldFrame>
      <p class="quiet">{preset.title}. The label charge sizes everything else.</p>
      <Typed name="labelCharge" issue="vehicle.labelCharge" {...{ draft, asked, answer }} />
      <ChooseSubstance
        initial={given.fluid}
        issue={issueOf(answer, "fluid", "blend")}
        draft={draft}
      />
      <Typed
        name="charge"
        optional
        hint="The label charge unless told."
        {...{ draft, asked, answer }}
      />
      <Segments
        name="vehicle-units"
        label="Units"
        value={preferences.value.system}
        options={[
          { value: "us", label: "US" },
          { value: "si", label: "SI" },
        ]}
        onChange={(value) => {
          prefer({ system: value === "us" ? "us" : "si", units: {} });
        }}
      />
    </section>
  );
}

/** The air around it and how it runs. */
export function ConditionSheet({ draft, given, asked, answer }: Props) {
  const shared = { draft, asked, answer };
  return (
    <section class="sheet" aria-labelledby="vehicle-conditions">
      <h2 id="vehicle-conditions">The day and the run</h2>
      <div class="field-row">
        <Typed name="ambient" signed {...shared} />
        <Typed name="humidity" {...shared} />
        <Typed name="speed" {...shared} />
        <Typed name="engineSpeed" {...shared} />
        <Typed name="blower" {...shared} />
      </div>
      <Segments
        name="vehicle-air"
        label="Air into the unit"
        value={draft.field("airSource", "cabin")}
        options={[
          { value: "cabin", label: "Cabin air" },
          { value: "outside", label: "Outside air" },
        ]}
        onChange={(airSource) => {
          draft.change({ airSource });
        }}
      />
      <div class="field-row">
        <Typed
          name="returnT"
          optional
          signed
          issue="returnAir.T"
          hint="Read where cabin air enters. It narrows the vent most."
          {...shared}
        />
        <Typed name="returnHumidity" optional issue="returnAir.humidity" {...shared} />
        <Typed
          name="altitude"
          optional
          signed
          hint={
            given.barometer === undefined
              ? "Sea level unless told."
              : "The trial’s air unless told."
          }
          {...shared}
        />
      </div>
    </section>
  );
}

interface TypedProps extends Omit<Props, "given"> {
  readonly name: VehicleSpecName;
  /** The answer's name of the field, where it is another. */
  readonly issue?: string;
  readonly hint?: string;
  readonly optional?: boolean;
  readonly signed?: boolean;
}

function Typed({ name, issue = name, asked, answer, hint, draft, ...rest }: TypedProps) {
  return (
    <FluidQuantity
      spec={asked.specs[name]}
      issue={issueOf(answer, issue)}
      draft={draft}
      {...(hint !== undefined && { hint })}
      {...rest}
    />
  );
}
