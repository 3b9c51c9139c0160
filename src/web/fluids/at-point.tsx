import type { Answer } from "../../calculations/index.ts";
import type { Shown } from "../../report/index.ts";
import { formatNumber } from "../../units/index.ts";
import { Segments } from "../fields/segments.tsx";
import type { Job } from "../engine/batch.ts";
import { useAnswers } from "../engine/use-answers.ts";
import type { Chosen } from "./chosen.ts";
import { FluidQuantity, issueOf, type QuantitySpec, typedQuantity } from "./fields.tsx";
import { changeFluidDraft, fluidField } from "./fluid-draft.ts";
import type { FluidUnits } from "./fluid-units.ts";
import { type BlendSaturation, isBlend, type PureSaturation, resultOf } from "./results.ts";
import { Basis, CannotCompute, Figure, Figures, NoAnswer } from "./said.tsx";

const T: QuantitySpec = {
  name: "T",
  label: "Temperature",
  dimension: "temperature",
  usual: { us: "°F", si: "°C" },
};
const p: QuantitySpec = {
  name: "p",
  label: "Pressure",
  dimension: "pressure",
  usual: { us: "psig", si: "bar(g)" },
};

/** The temperature to start with, as the unit in use has it. */
const startT = (unit: string): string => (unit === "°F" ? "75" : unit === "K" ? "297" : "24");

export const pointSpecs = (unitOfT: string): { T: QuantitySpec; p: QuantitySpec } => ({
  T: { ...T, initial: startT(unitOfT) },
  p,
});

interface Props {
  readonly substance: Chosen;
  readonly air: Readonly<Record<string, unknown>>;
  readonly units: FluidUnits;
}

/** What boils where: at a temperature, or under a pressure. */
export function AtPoint({ substance, air, units }: Props) {
  const by = fluidField("by", "T") === "p" ? "p" : "T";
  const specs = pointSpecs(units.T.unit);
  const given = typedQuantity(specs[by]);
  const jobs: Job[] =
    given === undefined
      ? []
      : [{ name: "saturation", input: { ...substance.input, ...air, [by]: given } }];
  const { answers, current, failed } = useAnswers(jobs);
  const [answer] = answers;
  const found = resultOf("saturation", answer);
  return (
    <section class="sheet" aria-labelledby="at-point">
      <h2 id="at-point">Where liquid and vapour are together</h2>
      <Segments
        name="fluids-by"
        label="What is known"
        value={by}
        options={[
          { value: "T", label: "At a temperature" },
          { value: "p", label: "Under a pressure" },
        ]}
        onChange={(value) => {
          changeFluidDraft({ by: value });
        }}
      />
      <FluidQuantity key={by} spec={specs[by]} issue={issueOf(answer, by)} />
      <CannotCompute failed={failed} />
      {given === undefined ? (
        <p class="empty">Type a {by === "T" ? "temperature" : "pressure"} first.</p>
      ) : (
        <>
          <NoAnswer answer={answer} />
          <Between answer={answer} shown={by === "T" ? units.T : units.gauge} />
          {found && (
            <Figures stale={!current}>
              {isBlend(found) ? (
                <OfBlend {...{ found, answer, by, units }} />
              ) : (
                <OfPure {...{ found, by, units }} />
              )}
            </Figures>
          )}
          {found && isBlend(found) && <FirstOut found={found} />}
          <Basis answers={[answer]} />
        </>
      )}
    </section>
  );
}

/** Between which limits there is an answer, in the reader's unit: the sentence above has SI. */
function Between({
  answer,
  shown,
}: {
  readonly answer: Answer | undefined;
  readonly shown: Shown;
}) {
  if (answer?.kind !== "no-answer") return null;
  const { from, to } = answer.numbers;
  if (from === undefined || to === undefined) return null;
  return (
    <p class="quiet">
      Liquid and vapour are together from {shown.text(from)} to {shown.text(to)}.
    </p>
  );
}

/** What leaves first is not what is inside: a leak or a draw of vapour changes the blend. */
const FirstOut = ({ found }: { readonly found: BlendSaturation }) =>
  found.bubble && (
    <p class="quiet">
      The first bubble is{" "}
      {found.bubble.composition
        .map(({ fluid, mass }) => `${fluid} ${formatNumber(100 * mass, 0)} %`)
        .join(", ")}{" "}
      by mass.
    </p>
  );

interface PureProps {
  readonly found: PureSaturation;
  readonly by: "T" | "p";
  readonly units: FluidUnits;
}

const OfPure = ({ found, by, units }: PureProps) => (
  <>
    {by === "T" ? (
      <Figure
        label="Pressure"
        value={units.gauge.text(found.p)}
        small={units.absolute.text(found.p)}
      />
    ) : (
      <Figure label="Temperature" value={units.T.text(found.T)} />
    )}
    <Figure label="Liquid density" value={units.rho.text(found.rhoL, found.rhoL * 1e-3)} />
    <Figure label="Vapour density" value={units.rho.text(found.rhoV, found.rhoV * 1e-3)} />
  </>
);

interface BlendProps {
  readonly found: BlendSaturation;
  readonly answer: Answer | undefined;
  readonly by: "T" | "p";
  readonly units: FluidUnits;
}

function OfBlend({ found, answer, by, units }: BlendProps) {
  const u = answer?.kind === "answer" ? (answer.uncertainty ?? {}) : {};
  const { bubble, dew, glide, missing = [] } = found;
  const side = (label: string, which: "bubble" | "dew") => {
    const point = found[which];
    if (!point) {
      const because = missing.find((one) => one.which === which)?.because;
      return <Figure label={label} value="none" small={because} />;
    }
    const shown = by === "T" ? units.gauge : units.T;
    const value = by === "T" ? point.p : point.T;
    const doubt = u[`${which}.${by === "T" ? "p" : "T"}`];
    return (
      <Figure
        label={label}
        value={doubt === undefined ? shown.text(value) : shown.pair({ value, u: doubt })}
        small={by === "T" ? units.absolute.text(value, doubt) : undefined}
      />
    );
  };
  return (
    <>
      {side("Begins to boil (bubble)", "bubble")}
      {side("Begins to condense (dew)", "dew")}
      {glide !== undefined && glide !== null && (
        <Figure label="Glide" value={units.dT.text(glide)} />
      )}
      {bubble && (
        <Figure label="Liquid density" value={units.rho.text(bubble.rho, bubble.rho * 2e-3)} />
      )}
      {dew && <Figure label="Vapour density" value={units.rho.text(dew.rho, dew.rho * 1e-2)} />}
    </>
  );
}
