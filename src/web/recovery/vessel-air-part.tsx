import { BandScale, unitChoice, type VerdictKind } from "../../report/index.ts";
import type { RecoveryFinding, TrialView, VesselAir } from "../../trial/index.ts";
import { Fit } from "../look/fit.tsx";
import { Fold } from "../look/fold.tsx";
import { VerdictCounts } from "../readings/verdict-counts.tsx";
import { preferences } from "../shell/preferences.ts";

interface Props {
  readonly finding: RecoveryFinding;
  readonly view: TrialView;
  readonly open: boolean;
}

type AirVerdict = VesselAir["check"]["verdict"];

const words: Readonly<Record<AirVerdict, readonly [VerdictKind, string, string]>> = {
  pass: ["within", "no more than accepted", "A little air may be inside; the rule accepts it."],
  air: [
    "higher",
    "air, or another fluid",
    "Let it stand at a steady temperature and read again. If it stays, draw vapour off the top slowly into recovery, never into the open; if it still reads high, recycle all of it.",
  ],
  undecided: ["undecided", "gauge cannot tell", "The limit lies within the gauge’s error."],
  "within-glide": [
    "undecided",
    "no test for this blend",
    "Between dew and bubble pressure the level of the liquid decides, so air cannot be told.",
  ],
  "no-test": [
    "lower",
    "below saturation",
    "No liquid is inside, it is colder than it was read, or it is another fluid: the test says nothing.",
  ],
};

/** Cylinders at rest: does the pressure hold more than the refrigerant's own? */
export function VesselAirPart({ finding, view: seen, open }: Props) {
  const units = unitChoice(seen, preferences.value.system);
  return (
    <Fold
      level={2}
      kind="service-sheet"
      title="Is there air in a cylinder?"
      open={open}
      said={
        <VerdictCounts
          judged={finding.air.map(({ name, check }) => {
            const [kind, word] = words[check.verdict];
            return { title: name, kind, word };
          })}
        />
      }
    >
      {finding.air.map(({ vessel, name, content, p, T, check }) => {
        const [kind, word, says] = words[check.verdict];
        return (
          <div key={vessel}>
            <Fit>
              {(width) => (
                <BandScale
                  id={`air-${vessel}`}
                  title={`${name}: ${content} at ${units.quantity("vessel-temperature").text(T)}`}
                  shown={units.quantity("vessel-pressure")}
                  band={{ from: check.dew, to: check.limit, expected: check.saturation }}
                  bandName="accepted"
                  reading={{ value: p, u: 0 }}
                  verdict={{ kind, word }}
                  width={width}
                />
              )}
            </Fit>
            <p>{says}</p>
            <p class="quiet">Limit: {check.source}</p>
          </div>
        );
      })}
    </Fold>
  );
}
