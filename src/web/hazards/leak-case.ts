import { blendNames, fluidNames, ventilationChoices } from "../../calculations/index.ts";
import type { HazardFinding, TrialView } from "../../trial/index.ts";
import { fromSI } from "../../units/index.ts";
import { type FieldDraft, fieldDraft } from "../fields/field-draft.ts";
import { chosenByName } from "../fluids/chosen.ts";
import { type QuantitySpec, typedQuantity, unitOfSpec } from "../fluids/fields.tsx";

const drafts = new Map<string, FieldDraft>();

/** The fields of this board, one set for each trial. */
export function leakDraft(trial: string): FieldDraft {
  const key = `hazards ${trial}`;
  const draft = drafts.get(key) ?? fieldDraft(key, "hazards");
  drafts.set(key, draft);
  return draft;
}

const small = { dimension: "mass", usual: { us: "oz", si: "g" } } as const;
const length = { dimension: "length", usual: { us: "in", si: "mm" } } as const;
const volume = { dimension: "volume", usual: { us: "ft3", si: "m3" } } as const;

/** Four digits are more than anybody knows of these. */
const typed = (si: number, unit: string): string => String(Number(fromSI(si, unit).toPrecision(4)));

function beginning(spec: QuantitySpec, draft: FieldDraft, si: number | undefined): QuantitySpec {
  return si === undefined ? spec : { ...spec, initial: typed(si, unitOfSpec(spec, draft)) };
}

/** Free air of an engine bay, m3, and a hole: common practice, no source. */
const BAY = 0.2;
const HOLE = 1e-3;

export type Place = "cabin" | "bay";
export const escapes = [
  { value: "at-once", label: "All at once", hint: "the worst" },
  { value: "liquid", label: "Hole, liquid", hint: "below its surface" },
  { value: "vapour", label: "Hole, vapour", hint: "above it" },
] as const;

/** The board's fields as a question. */
export interface LeakBoardCase {
  readonly subject: HazardFinding;
  readonly place: Place;
  readonly substance: string;
  /** What the trial takes it as, where that is a mixture that no list has. */
  readonly mixture: string | undefined;
  readonly specs: Readonly<Record<"mass" | "volume" | "hole", QuantitySpec>>;
  readonly escape: string;
  readonly ventilation: string;
  readonly blower: "on" | "off";
  /** As `cabin-leak` takes it, with both ways of mixing; undefined while a field is empty. */
  readonly input: Readonly<Record<string, unknown>> | undefined;
}

/** What the page is asked about, out of what the trial holds. */
export function subjectOf(draft: FieldDraft, findings: readonly HazardFinding[]) {
  return findings.find(({ product }) => product === draft.field("subject")) ?? findings[0];
}

const placeOf = ({ field }: FieldDraft): Place => (field("place") === "bay" ? "bay" : "cabin");

const substanceOf = (draft: FieldDraft, { product, takenAs: as }: HazardFinding): string =>
  draft.field(`substance ${product}`, as?.name ?? "R290");

/** Of a content that was identified as parts without a name, that name for a list. */
const mixtureOf = ({ takenAs: as }: HazardFinding): string | undefined =>
  as?.because === "identified" && !isListed(as.name) ? as.name : undefined;

const isListed = (name: string): boolean =>
  fluidNames.includes(name) || blendNames.some((blend) => blend.name === name);

const blendOf = ({ parts = [] }: HazardFinding) => ({
  blend: parts.map(({ fluid, fraction }) => ({ fluid, mass: fraction })),
});

export function leakBoardCase(
  draft: FieldDraft,
  view: TrialView,
  subject: HazardFinding,
): LeakBoardCase {
  const place = placeOf(draft);
  const { product, mass } = subject;
  const room = place === "bay" ? BAY : view.vehicle?.cabinVolume;
  const specs = {
    mass: beginning({ name: `mass ${product}`, label: "Mass that escapes", ...small }, draft, mass),
    volume: beginning(
      {
        name: `volume ${place}`,
        label: place === "bay" ? "Free air in the bay" : "Free air in the cabin",
        ...volume,
      },
      draft,
      room,
    ),
    hole: beginning({ name: "hole", label: "Diameter of the hole", ...length }, draft, HOLE),
  };
  const escape = escapes.find(({ value }) => value === draft.field("escape"))?.value ?? "at-once";
  const mixture = mixtureOf(subject);
  const picked = substanceOf(draft, subject);
  // What was picked while the parts were other ones means the parts of now.
  const substance = isListed(picked) ? picked : (mixture ?? "R290");
  const chosen = draft.field("ventilation", "sealed");
  const ventilation = ventilationChoices.find(({ name }) => name === chosen)?.name ?? "sealed";
  const [m, v, hole] = [specs.mass, specs.volume, specs.hole].map((spec) =>
    typedQuantity(spec, draft),
  );
  const through = escape === "at-once" ? {} : { hole, phase: escape };
  const ready = m !== undefined && v !== undefined && (escape === "at-once" || hole !== undefined);
  const inside = view.vehicle?.internalVolume;
  return {
    ...{ subject, place, substance, mixture, specs, escape, ventilation },
    blower: draft.field("blower") === "on" ? "on" : "off",
    input: ready
      ? {
          ...(substance === mixture ? blendOf(subject) : chosenByName(substance).input),
          ...{ mass: m, volume: v, place, ventilation, barometer: view.atmosphere.value },
          ...through,
          ...(escape !== "at-once" && inside !== undefined && { systemVolume: inside }),
        }
      : undefined,
  };
}
