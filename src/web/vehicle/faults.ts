import { fluidNames } from "../../calculations/index.ts";
import type { FieldDraft } from "../fields/field-draft.ts";
import { type Chosen, chosenByName } from "../fluids/chosen.ts";
import { type QuantitySpec, typedQuantity, unitOfSpec } from "../fluids/fields.tsx";

type Input = Readonly<Record<string, unknown>>;

const ratio = { dimension: "ratio", usual: { us: "%", si: "%" } } as const;

interface FaultKind {
  readonly name: string;
  /** In a list. */
  readonly label: string;
  /** How much of it, if that is a quantity; else another fluid is chosen. */
  readonly spec?: QuantitySpec;
  /** Where an answer objects to it. */
  readonly issue?: string;
  readonly starts?: Readonly<Record<string, string>>;
}

const share = (name: string, label: string, says: string, percent: string): FaultKind => ({
  name,
  label,
  spec: { name: `fault-${name}`, label: says, ...ratio },
  issue: `faults.${name}`,
  starts: { "%": percent, "1": String(Number(percent) / 100) },
});

export const faultKinds: readonly FaultKind[] = [
  share("undercharge", "Too little refrigerant", "Share of the charge that is missing", "30"),
  share("overcharge", "Too much refrigerant", "Share of the charge that is too much", "20"),
  {
    name: "air",
    label: "Air in the system",
    spec: {
      name: "fault-air",
      label: "Air left in before charging, its pressure",
      dimension: "pressure-difference",
      usual: { us: "psi", si: "kPa" },
    },
    issue: "air",
    starts: { psi: "3", kPa: "20", bar: "0.2" },
  },
  share("weakCompressor", "Weak compressor", "Share of its flow that is lost", "30"),
  share("blockedCondenser", "Blocked condenser", "Share of its air that is lost", "40"),
  share("restriction", "Restricted orifice or valve", "Share of its area that is lost", "30"),
  { name: "fluid", label: "Another fluid in it" },
];

export interface Fault {
  readonly kind: FaultKind;
  /** With the value to start from in the unit in use. */
  readonly spec: QuantitySpec | undefined;
  /** Other fluid, if that is the fault. */
  readonly other: Chosen | undefined;
  /** The question with the fault in it; undefined while its size is not typed. */
  readonly input: Input | undefined;
}

const usualOther = (fluid: string): string =>
  fluid === "R134a" ? "R1234yf" : (fluidNames.find((name) => name === "R134a") ?? fluid);

const withoutFluid = (input: Input): Input =>
  Object.fromEntries(
    Object.entries(input).filter(([name]) => name !== "fluid" && name !== "blend"),
  );

/** The fault that is chosen, put into the sound question. */
export function chosenFault(draft: FieldDraft, sound: Input, fluid: string): Fault {
  const name = draft.field("fault", "undercharge");
  const kind = faultKinds.find((one) => one.name === name) ?? faultKinds[0];
  if (!kind) throw new RangeError("there is no fault to choose");
  if (!kind.spec) {
    const other = chosenByName(draft.field("fault-fluid", usualOther(fluid)));
    return { kind, spec: undefined, other, input: { ...withoutFluid(sound), ...other.input } };
  }
  const start = kind.starts?.[unitOfSpec(kind.spec, draft)];
  const spec = start === undefined ? kind.spec : { ...kind.spec, initial: start };
  const size = typedQuantity(spec, draft);
  const put = kind.name === "air" ? { air: size } : { faults: { [kind.name]: size } };
  return {
    kind,
    spec,
    other: undefined,
    input: size === undefined ? undefined : { ...sound, ...put },
  };
}
