import { type Answer, FULLEST } from "../../calculations/index.ts";
import { VesselPicture, type VesselPictureProps, vesselTable } from "../../report/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import type { Chosen } from "./chosen.ts";
import { FluidQuantity, issueOf } from "./fields.tsx";
import type { FluidUnits } from "./fluid-units.ts";
import { type PhaseView, type VesselContents, resultOf } from "./results.ts";
import { Basis, CannotCompute, Figure, Figures, NoAnswer, noteWith } from "./said.tsx";
import { EmptyingPart } from "./emptying-part.tsx";
import { sharesOf, typedVessel, vesselInputs } from "./vessel-fields.ts";

interface Props {
  readonly substance: Chosen;
  readonly air: Readonly<Record<string, unknown>>;
  readonly units: FluidUnits;
}

/** A closed vessel of known volume and mass: what a gauge on it shows, and how full it stands. */
export function VesselPart({ substance, air, units }: Props) {
  const specs = vesselInputs();
  const given = typedVessel();
  const { answers, current, failed } = useAnswers(
    given ? [{ name: "vessel", input: { ...substance.input, ...air, ...given } }] : [],
  );
  const [answer] = answers;
  const found = resultOf("vessel", answer);
  return (
    <section class="sheet" aria-labelledby="vessel">
      <h2 id="vessel">What would a gauge show?</h2>
      <p class="quiet">A can, a cylinder or a system that is closed and has one temperature.</p>
      <div class="field-row">
        <FluidQuantity spec={specs.volume} issue={issueOf(answer, "volume")} />
        <FluidQuantity spec={specs.mass} issue={issueOf(answer, "mass")} />
        <FluidQuantity spec={specs.T} issue={issueOf(answer, "T")} />
      </div>
      <CannotCompute failed={failed} />
      {given === undefined && <p class="empty">Type volume, mass and temperature first.</p>}
      <NoAnswer answer={answer} />
      {found && given && (
        <>
          <Contents {...{ substance, found, answer, current, units }} />
          <Basis answers={[answer]} />
          {found.liquidVolumeFraction > 0 && found.liquidVolumeFraction < 1 && (
            <EmptyingPart
              {...{ substance, air, units }}
              vessel={given}
              said={answer?.kind === "answer" ? answer.cautions : []}
            />
          )}
        </>
      )}
    </section>
  );
}

interface ContentsProps {
  readonly substance: Chosen;
  readonly found: VesselContents;
  readonly answer: Answer | undefined;
  readonly current: boolean;
  readonly units: FluidUnits;
}

function Contents({ substance, found, answer, current, units }: ContentsProps) {
  const u = answer?.kind === "answer" ? answer.uncertainty?.["p"] : undefined;
  const { p, liquidVolumeFraction: level } = found;
  const pressure = u === undefined ? units.gauge.text(p) : units.gauge.pair({ value: p, u });
  return (
    <>
      <Figures stale={!current}>
        <Figure label="Gauge" value={pressure} small={units.absolute.text(p, u)} />
        <Figure
          label="Liquid, of the volume"
          value={`${(100 * level).toFixed(0)} %`}
          small={`${(100 * found.liquidFraction).toFixed(0)} % of the mass`}
        />
      </Figures>
      <Picture {...{ substance, found, answer, units }} pressure={units.gauge.text(p, u)} />
    </>
  );
}

interface PictureProps {
  readonly substance: Chosen;
  readonly found: VesselContents;
  readonly answer: Answer | undefined;
  readonly units: FluidUnits;
  readonly pressure: string;
}

function Picture({ substance, found, answer, units, pressure }: PictureProps) {
  const phase = (kind: PhaseView["kind"]) => found.phases.find((one) => one.kind === kind);
  const [liquid, vapour] = [phase("liquid"), phase("vapour")];
  const view = (one: PhaseView) => ({
    share: one.share,
    composition: sharesOf(one.composition),
  });
  const props: Omit<VesselPictureProps, "width"> = {
    id: "fluid-vessel",
    title: titleOf(substance.name, found, pressure),
    p: found.p,
    shownP: units.gauge,
    liquidVolumeFraction: found.liquidVolumeFraction,
    ...(liquid && { liquid: view(liquid) }),
    ...(vapour && { vapour: view(vapour) }),
    limit: { fraction: FULLEST, name: `limit ${(100 * FULLEST).toFixed(0)} %` },
  };
  return (
    <PictureSheet
      title={props.title}
      note={noteWith("Coldproof. Equilibrium at the vessel's temperature, volume and mass.", [
        answer,
      ])}
      table={vesselTable({ ...props, width: 0 })}
      draw={(width, height) => (
        <VesselPicture {...props} width={width} {...(height !== undefined && { height })} />
      )}
    />
  );
}

function titleOf(name: string, found: VesselContents, pressure: string): string {
  const level = found.liquidVolumeFraction;
  if (level === 0) return `All of the ${name} is vapour: the gauge shows ${pressure}`;
  if (level === 1) return `Full of liquid ${name}: the gauge shows ${pressure}`;
  return `${(100 * level).toFixed(0)} % of the vessel is liquid ${name}: the gauge shows ${pressure}`;
}
