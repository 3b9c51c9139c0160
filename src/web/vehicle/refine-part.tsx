import type { Answer, ParameterGroup, ParameterView } from "../../calculations/index.ts";
import { formatNumber } from "../../units/index.ts";
import { describedBy, FieldFrame } from "../fields/field-frame.tsx";
import type { FieldDraft } from "../fields/field-draft.ts";
import { issueOf } from "../fluids/fields.tsx";
import { changeOverride, overrideField } from "./overrides.ts";
import { type ParameterUnit, parameterUnit } from "./parameter-units.ts";

interface Props {
  readonly draft: FieldDraft;
  readonly parameters: readonly ParameterView[];
  readonly answer: Answer | undefined;
}

const groups: readonly { readonly group: ParameterGroup; readonly title: string }[] = [
  { group: "compressor", title: "Compressor and lines" },
  { group: "control", title: "Switches and control" },
  { group: "condenser", title: "Condenser and its air" },
  { group: "evaporator", title: "Evaporator, blower, ducts" },
  { group: "expansion", title: "Orifice or valve" },
  { group: "volumes", title: "Inner volumes" },
  { group: "cabin", title: "Cabin" },
];

/** Every parameter of the vehicle: what it is unless told, how far it may be off, whence, and the user's own. */
export function RefinePart({ draft, parameters, answer }: Props) {
  const own = parameters.filter(({ name }) => overrideField(draft, name).trim() !== "");
  return (
    <section class="sheet" aria-labelledby="refine">
      <h2 id="refine">What you know of this vehicle</h2>
      <p class="quiet">
        A value typed here replaces the default and is taken as known: the bands get narrower. This
        device keeps it.
      </p>
      {own.length > 0 && (
        <div class="vehicle-own">
          <p>
            {own.length === 1 ? "One value is your own." : `${own.length} values are your own.`}
          </p>
          <button
            type="button"
            class="button"
            onClick={() => {
              for (const { name } of own) changeOverride(draft, name, "");
            }}
          >
            Back to the defaults
          </button>
        </div>
      )}
      {groups.map(({ group, title }) => {
        const inside = parameters.filter((one) => one.group === group);
        return (
          inside.length > 0 && (
            <Group key={group} title={title} {...{ draft, answer }} parameters={inside} />
          )
        );
      })}
    </section>
  );
}

function Group({ title, draft, parameters, answer }: Props & { readonly title: string }) {
  const own = parameters.filter(({ name }) => overrideField(draft, name).trim() !== "").length;
  const wrong = parameters.some(({ name }) => issueOf(answer, `vehicle.${name}`) !== undefined);
  return (
    <details class="vehicle-group" open={wrong}>
      <summary>
        {title} ({parameters.length}
        {own > 0 && `, ${own} your own`})
      </summary>
      <ul class="vehicle-parameters">
        {parameters.map((parameter) => (
          <li key={parameter.name}>
            <Parameter
              draft={draft}
              parameter={parameter}
              issue={issueOf(answer, `vehicle.${parameter.name}`)}
            />
          </li>
        ))}
      </ul>
    </details>
  );
}

interface ParameterProps {
  readonly draft: FieldDraft;
  readonly parameter: ParameterView;
  readonly issue: string | undefined;
}

function Parameter({ draft, parameter, issue }: ParameterProps) {
  const { name, what, value, from, to, source } = parameter;
  const unit = parameterUnit(parameter);
  const id = `${draft.prefix}-own-${name}`;
  const hint = `${numberText(value, unit)} unless told; plausible ${rangeText(from, to, unit)}. ${sentence(source)}`;
  return (
    <FieldFrame id={id} label={sentence(what).replace(/\.$/, "")} hint={hint} issue={issue}>
      <div class="quantity">
        <input
          id={id}
          class="quantity-number"
          type="text"
          inputMode="text"
          autoComplete="off"
          value={overrideField(draft, name)}
          aria-invalid={issue !== undefined}
          aria-describedby={describedBy(id, hint, issue)}
          onInput={(event) => {
            changeOverride(draft, name, event.currentTarget.value);
          }}
        />
        <span class="quantity-suffix">{unit.label}</span>
      </div>
    </FieldFrame>
  );
}

const sentence = (text: string): string => {
  const upper = text.charAt(0).toUpperCase() + text.slice(1);
  return upper.endsWith(".") ? upper : `${upper}.`;
};

const rangeText = (from: number, to: number, unit: ParameterUnit): string =>
  from === to
    ? "as it is by definition"
    : `${bareText(unit.value(from))} to ${numberText(to, unit)}`;

const numberText = (si: number, unit: ParameterUnit): string =>
  `${bareText(unit.value(si))}${unit.label === "" ? "" : `\u202f${unit.label}`}`;

const DIGITS = 3;
/** Numbers beyond these are written with a power of ten. */
const PLAIN = { from: 1e-3, to: 1e6 } as const;

const raised = (power: string): string =>
  power
    .replace("+", "")
    .replace("-", "⁻")
    .replace(/\d/g, (digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹".charAt(Number(digit)));

function powerText(value: number): string {
  const [digits = "", power = ""] = value.toExponential(DIGITS - 1).split("e");
  return `${Number(digits)} × 10${raised(power)}`;
}

/** Three digits that mean something. */
function bareText(value: number): string {
  const rounded = Number(value.toPrecision(DIGITS));
  const size = Math.abs(rounded);
  if (size !== 0 && (size < PLAIN.from || size >= PLAIN.to)) return powerText(rounded);
  const [, decimals = ""] = String(Math.abs(rounded)).split(".");
  return formatNumber(rounded, decimals.length);
}
