import { conditionNames, readingName, testerAnswer, testerNames } from "../../report/index.ts";
import type { BodyOf, EventType } from "../../trial/index.ts";
import { formatQuantity } from "../../units/index.ts";
import type { LessonEntry } from "./lesson.ts";

/** One thing to type: the field's own label, and what the invented instrument showed. */
export interface Line {
  readonly label: string;
  readonly value: string;
}

const line = (label: string, value: string): Line => ({ label, value });
const named = (id: string): string => (id === "vehicle" ? "the van" : id.replace(/^@/, ""));
/** The lesson's entries are the log's, but for names that stand for ids. */
type Told = {
  readonly [T in EventType]: { readonly type: T; readonly body: BodyOf<T> };
}[EventType];

/** What is to be typed for an entry, field by field. */
export function linesOf(entry: LessonEntry): readonly Line[] {
  const { type, body } = entry as unknown as Told;
  switch (type) {
    case "reading-taken":
      return [readingLine(body)];
    case "transfer-posted":
      return transferLines(body);
    case "vehicle-described":
      return vehicleLines(body);
    case "product-listed":
      return productLines(body);
    case "vessel-listed":
      return vesselLines(body);
    case "instrument-listed":
      return [line("Instrument", body.name)];
    case "vessel-found-empty": {
      const { vessel, evidence } = body;
      return [line(`Found empty: ${named(vessel)}`, evidence)];
    }
    case "trace-imported":
      return [line("File", body.fileName)];
    case "run-recorded": {
      const { name, condition } = body;
      return [line("Run", `${name} (${conditionNames[condition].toLowerCase()})`)];
    }
    case "sample-tested":
      return [line(testerNames[body.method], testerAnswer(body))];
    case "note-written":
      return [line("Note", body.text)];
    case "trial-opened":
    case "stream-opened":
    case "samples-received":
    case "claim-read":
    case "log-redacted":
    case "item-confirmed":
    case "entry-corrected":
    case "entry-withdrawn":
      return [];
  }
}

function readingLine({ quantity, form, value, vessel }: BodyOf<"reading-taken">): Line {
  const about = vessel === undefined ? "" : ` of ${named(vessel)}`;
  return line(`${readingName(quantity, form)}${about}`, formatQuantity(value));
}

function transferLines(body: BodyOf<"transfer-posted">): readonly Line[] {
  const { from, to, sourceWeighing, destinationWeighing, purged } = body;
  const weighed = (what: string, one: typeof sourceWeighing): readonly Line[] =>
    one
      ? [
          line(`${what}, before`, formatQuantity(one.before)),
          line(`${what}, after`, formatQuantity(one.after)),
        ]
      : [];
  return [
    line("From", named(from)),
    line("To", named(to)),
    ...weighed("The source", sourceWeighing),
    ...weighed("The destination", destinationWeighing),
    ...(purged
      ? [line("Left the hoses", `${formatQuantity(purged.mass)} ± ${formatQuantity(purged.limit)}`)]
      : []),
  ];
}

function vehicleLines(body: BodyOf<"vehicle-described">): readonly Line[] {
  const { cabinVolume, internalVolume, oil } = body;
  return [
    line("Vehicle", body.name),
    line("Refrigerant on the label", body.labelRefrigerant),
    line("Charge on the label", formatQuantity(body.labelCharge)),
    line("Metering device", "Expansion valve"),
    line("Compressor", "Variable"),
    ...(oil === undefined ? [] : [line("Oil", oil)]),
    ...(cabinVolume ? [line("Cabin volume", formatQuantity(cabinVolume))] : []),
    ...(internalVolume
      ? [line("Internal volume of the circuit", formatQuantity(internalVolume))]
      : []),
  ];
}

function productLines(body: BodyOf<"product-listed">): readonly Line[] {
  const { labelMass, claims } = body;
  return [
    line("Product", body.name),
    ...(labelMass ? [line("Net mass on the label", formatQuantity(labelMass))] : []),
    line("Claims, one a line", claims.join("\n")),
    line("Flammable mark", body.flammableMark ? "Yes" : "No"),
  ];
}

function vesselLines({ name, kind, tare, holds }: BodyOf<"vessel-listed">): readonly Line[] {
  const parts = [
    kind === "can" ? "can" : "recovery cylinder",
    tare && `tare ${formatQuantity(tare)}`,
    holds && `holds ${formatQuantity(holds.mass)}, ${holds.basis}`,
  ];
  return [line(name, parts.filter(Boolean).join(", "))];
}
