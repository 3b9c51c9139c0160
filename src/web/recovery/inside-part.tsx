import { unitChoice, type UnitChoice, type VerdictKind, VerdictWord } from "../../report/index.ts";
import type { OilAccount, RecoveryFinding, StillInside, TrialView } from "../../trial/index.ts";
import { Figure, Figures } from "../fluids/said.tsx";
import { Fold } from "../look/fold.tsx";
import { preferences } from "../shell/preferences.ts";

interface Props {
  readonly finding: RecoveryFinding;
  readonly view: TrialView;
  readonly open: boolean;
}

/** From here on tenths of a per cent mean nothing. */
const COARSE = 0.02;

const words: Readonly<Record<StillInside["verdict"], readonly [VerdictKind, string]>> = {
  reached: ["within", "reached"],
  "not-reached": ["lower", "not reached"],
  "cannot-tell": ["undecided", "cannot be told"],
};

/** What came out, what is still inside, and the oil. */
export function InsidePart({ finding, view: seen, open }: Props) {
  const units = unitChoice(seen, preferences.value.system);
  const { inside, recovered, oil } = finding;
  const mass = units.thing("small-mass");
  const digits = recovered && recovered.u > COARSE ? 0 : 1;
  return (
    <Fold
      level={2}
      kind="service-sheet"
      title="What is still inside?"
      open={open}
      {...(!("missing" in inside) && {
        said: <Required verdict={inside.verdict} />,
      })}
    >
      {"missing" in inside ? (
        <p class="empty">{inside.missing}</p>
      ) : (
        <Inside inside={inside} units={units} />
      )}
      {recovered && (
        <>
          <Figures>
            <Figure
              label="Came out, of what the ledger had inside"
              value={`${(100 * recovered.share).toFixed(digits)} ± ${(200 * recovered.u).toFixed(digits)} %`}
              small={`${mass.text(Math.abs(recovered.remaining))} ${recovered.remaining < 0 ? "more than thought" : "did not"}; ${mass.text(recovered.allowed)} may stay`}
            />
          </Figures>
          <p>
            <VerdictWord
              kind={words[recovered.verdict][0]}
              word={`95\u00a0%: ${words[recovered.verdict][1]}`}
            />
          </p>
          <p class="quiet">
            The rule for machines: 95 % in 30 minutes at 21 to 24 °C without outside heat (40 CFR 82
            subpart B, appendix C 7.1.1). Its denominator is what was inside, and a label or a guess
            is a weak one.
          </p>
        </>
      )}
      {oil && <Oil oil={oil} units={units} />}
    </Fold>
  );
}

const Required = ({ verdict }: Pick<StillInside, "verdict">) => (
  <VerdictWord kind={words[verdict][0]} word={`102 mmHg below the air: ${words[verdict][1]}`} />
);

function Inside({ inside, units }: { readonly inside: StillInside; readonly units: UnitChoice }) {
  const mass = units.thing("small-mass");
  const low = units.quantity("low-side");
  const isVapour = inside.phase === "vapour";
  return (
    <>
      <Figures>
        <Figure
          label={isVapour ? "Vapour left in the system" : "Vapour, at the least"}
          value={isVapour ? mass.pair({ value: inside.mass, u: inside.u }) : mass.text(inside.mass)}
          small={`at ${low.text(inside.p)} in ${units.thing("circuit-volume").text(inside.volume)}`}
        />
      </Figures>
      {!isVapour && (
        <p class="told">At this pressure liquid may still lie inside: go on recovering.</p>
      )}
      <p>
        <Required verdict={inside.verdict} />
      </p>
      <p class="quiet">
        Required: {low.text(inside.required)} or deeper (40 CFR 82 subpart B, appendix F 6.1), and
        no rise afterwards: gas comes out of the oil for minutes. What is dissolved there is not in
        the figure.
        {inside.assumed.length > 0 && ` Taken for granted: ${inside.assumed.join("; ")}.`}
      </p>
    </>
  );
}

function Oil({ oil, units }: { readonly oil: OilAccount; readonly units: UnitChoice }) {
  const volume = units.quantity("oil-drained");
  return (
    <>
      <Figures>
        <Figure
          label="Oil to put back"
          value={volume.text(oil.toPutBack)}
          small={`${volume.text(oil.drained)} came out, ${volume.text(oil.returned)} went back`}
        />
      </Figures>
      <p class="quiet">
        New oil of the kind the maker names, and only what came out; read it to 20 mL once the gas
        is out of it (40 CFR 82 subpart B, appendix C 7.6).
      </p>
    </>
  );
}
