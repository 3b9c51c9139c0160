import { BandScale, shownIn } from "../../report/index.ts";
import type { RecoveryFinding, StageView, StopMark, TrialView } from "../../trial/index.ts";
import { isUnit, parseQuantity, type Quantity, toSI } from "../../units/index.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { Pick } from "../fields/pick.tsx";
import { QuantityInput } from "../fields/quantity-input.tsx";
import { Fit } from "../look/fit.tsx";
import { readingKey } from "../readings/reading-draft.ts";
import { changeDraft, draftOf } from "../shell/drafts.ts";
import { rememberUnit, unitFor } from "../shell/preferences.ts";
import { pathTo } from "../shell/route.ts";
import { stageParts } from "../walk/stage-key.ts";
import { fillState } from "./fill-state.ts";

interface Props {
  readonly finding: RecoveryFinding;
  readonly view: TrialView;
  readonly stage: StageView;
}

/** kg: two decimals in kg and lb, as a floor scale shows. */
const SHOWN = 0.06;
const UNIT = { us: "lb", si: "kg" };

/** While the cylinder stands on the scale: what it shows now, and how far it is to the stop mark. */
export function FillWatch({ finding, view: seen, stage }: Props) {
  const marked = finding.vessels.filter(({ stopMark }) => stopMark !== undefined);
  const key = `fill ${stage.stage} ${stage.round ?? "-"}`;
  const draft = draftOf(key);
  const begun = finding.into.at(-1)?.vessel;
  const usable =
    marked.find(({ id }) => id === begun) ??
    marked.find(({ verdict }) => verdict !== "no") ??
    marked[0];
  const vessel = marked.find(({ id }) => id === draft["vessel"]) ?? usable;
  const mark = vessel?.stopMark;
  if (!vessel || !mark) return null;
  const unit = unitFor("gross-mass", UNIT);
  const text = draft["gross"] ?? "";
  const parsed = text.trim() === "" ? undefined : parseQuantity(text, "mass", unit);
  const typed = parsed && parsed.kind !== "invalid" ? parsed.quantity : undefined;
  const issue = parsed?.kind === "invalid" ? parsed.accepted : undefined;
  return (
    <section class="sheet service-sheet" aria-labelledby="fill">
      <h2 id="fill">Watch the scale while it fills</h2>
      <FieldFrame id="fill-vessel" label="On the scale">
        <Pick
          id="fill-vessel"
          empty="Choose the vessel"
          value={vessel.id}
          options={marked.map(({ id, name }) => ({ value: id, label: name }))}
          onChange={(id) => {
            changeDraft(key, { vessel: id });
          }}
        />
      </FieldFrame>
      {vessel.verdict === "no" && (
        <p class="told">
          <strong>Do not fill {vessel.name}.</strong> The reasons stand above.
        </p>
      )}
      <FieldFrame id="fill-gross" label="The scale shows now" issue={issue}>
        <QuantityInput
          id="fill-gross"
          label="The scale shows now"
          text={text}
          unit={isUnit(unit, "mass") ? unit : "kg"}
          dimensions={["mass"]}
          large
          invalid={issue !== undefined}
          onText={(gross) => {
            changeDraft(key, { gross });
          }}
          onUnit={(id) => {
            rememberUnit("gross-mass", id);
          }}
        />
      </FieldFrame>
      <Toward mark={mark} typed={typed} unit={typed?.unit ?? unit} name={vessel.name} />
      {typed && <KeepReading {...{ view: seen, stage, vessel: vessel.id, text, unit }} />}
      <p class="quiet">
        Close the valves and weigh again after the hoses are off: a hose that pulls on the cylinder
        is on the scale too. The mark stamped on the vessel counts where it is lower.
      </p>
    </section>
  );
}

interface TowardProps {
  readonly mark: StopMark;
  readonly typed: Quantity | undefined;
  readonly unit: string;
  readonly name: string;
}

/** The reading against what the vessel may weigh, and the mass that is still allowed, large. */
function Toward({ mark, typed, unit, name }: TowardProps) {
  const shown = shownIn(unit);
  const gross = typed && toSI(typed);
  const state = gross === undefined ? undefined : fillState(mark, gross);
  return (
    <>
      <div class="fill-figure" aria-live="polite">
        {state ? (
          <>
            <strong class="figure">{shown.text(Math.abs(state.left), SHOWN)}</strong>
            <span>{state.says}</span>
          </>
        ) : (
          <>
            <strong class="figure">{shown.text(mark.maxGross, SHOWN)}</strong>
            <span>is where {name} has to stop, tare included</span>
          </>
        )}
      </div>
      <Fit>
        {(width) => (
          <BandScale
            id="fill-scale"
            title={`Gross mass of ${name}`}
            shown={shown}
            band={{ from: mark.tare, to: mark.maxGross }}
            bandName="may weigh"
            domain={[mark.tare - 0.05 * mark.maxMass, mark.maxGross + 0.15 * mark.maxMass]}
            {...(gross !== undefined && {
              reading: { value: Math.min(gross, mark.maxGross + 0.14 * mark.maxMass), u: 0 },
              readingText: shown.text(gross),
            })}
            {...(state && { verdict: { kind: state.kind, word: state.word } })}
            width={width}
          />
        )}
      </Fit>
    </>
  );
}

interface KeepProps {
  readonly view: TrialView;
  readonly stage: StageView;
  readonly vessel: string;
  readonly text: string;
  readonly unit: string;
}

/** The figure goes on to the reading's own step, where scale and ledger are asked. */
function KeepReading({ view: seen, stage, vessel, text, unit }: KeepProps) {
  const { trial = "" } = seen;
  const prompt = stage.prompts.find(({ id }) => id === `gross-mass:${vessel}`);
  if (!prompt) return null;
  return (
    <a
      class="button"
      href={pathTo("trial", trial, ...stageParts(stage), "reading", prompt.id)}
      onClick={() => {
        changeDraft(readingKey(stage, prompt), { steady: text, unit });
      }}
    >
      Keep this as a reading
    </a>
  );
}
