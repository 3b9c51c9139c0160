import type { HazardFinding } from "../../trial/index.ts";
import { LeakChart } from "../pictures/leak-chart.tsx";
import type { LeakChartProps } from "../pictures/leak-props.ts";
import { leakTable } from "../pictures/leak-words.ts";
import { DataTable, FoldedTable, type PictureTable } from "../pictures/picture.tsx";
import { shownIn } from "../shown.ts";
import type { Page } from "./context.ts";
import { hazardSentence, scenarioNames, takenSentence } from "./hazard-words.ts";
import { Section, type SectionEntry, Twice } from "./section.tsx";
import { workedOut } from "./worked-out.ts";

const LEAD =
  "What would happen if the whole charge escaped into the cabin in one moment: worked out from its mass, the cabin’s volume and published limits. Nothing was released to learn it, and releasing it may be prohibited. Whether a flammable refrigerant may be in a vehicle at all is for the authority where you are.";

/** What a leak of each charge would do in this cabin. */
export const Hazards = ({ page, id, title }: { page: Page } & SectionEntry) => (
  <Section id={id} title={title} lead={LEAD}>
    {workedOut(page.view).hazards.map((finding) => (
      <Hazard key={finding.product} finding={finding} page={page} />
    ))}
    <p class="quiet">
      Each zone is taken as even; near the leak it is richer, so a flame is possible there whatever
      these figures say. The layer is taken 0.3 m high under a cabin of 1.1 m (common practice, no
      source), without any exchange with the air above. Fresh air of 30 changes an hour is an
      assumption at the low end of what studies report. A bay is smaller than a cabin and has
      ignition sources of its own.
    </p>
  </Section>
);

function Hazard({ finding, page }: { finding: HazardFinding; page: Page }) {
  const taken = takenSentence(finding);
  return (
    <div class="comparison">
      <h3>
        {finding.name}
        {finding.product === "label" && ", the label refrigerant"}
      </h3>
      {taken !== undefined && <p>{taken}</p>}
      <p>{hazardSentence(finding, page.units)}</p>
      {finding.scenarios.length > 0 && <Scenarios finding={finding} page={page} />}
    </div>
  );
}

function Scenarios({ finding, page }: { finding: HazardFinding; page: Page }) {
  const [stirred, layer] = finding.scenarios;
  const { lfl } = finding;
  const picture: Omit<LeakChartProps, "id" | "width"> | undefined =
    stirred && layer && lfl !== undefined
      ? {
          title: `${finding.name} peaks at ${times(layer.zone)} the limit at the floor, at ${times(stirred.zone)} in stirred air`,
          shown: shownIn("g/m3"),
          lines: [
            { name: "at the floor", points: layer.zone.series },
            { name: "stirred", points: stirred.zone.series },
            ...finding.scenarios
              .filter(({ name }) => name === "fan-stirred")
              .map(({ zone }) => ({ name: "fan, fresh air", points: zone.series })),
          ],
          lfl,
          log: true,
        }
      : undefined;
  return (
    <>
      {picture && (
        <>
          <Twice
            id={`leak-${finding.product}`}
            draw={(id, width) => <LeakChart id={id} width={width} {...picture} />}
          />
          <FoldedTable table={leakTable({ id: "", width: 0, ...picture })} />
        </>
      )}
      <DataTable {...(lfl === undefined ? plainTable(finding) : limitTable(finding, page))} />
    </>
  );
}

const times = ({ overLfl = 0 }: HazardFinding["scenarios"][number]["zone"]): string =>
  `${overLfl.toFixed(1)} times`;

/** Against the limit from which it burns. */
const limitTable = (finding: HazardFinding, page: Page): PictureTable => ({
  caption: "The whole charge at once",
  head: ["Assumption", "Peak", "Against the limit", "Would burn for", "Stays below a quarter"],
  rows: finding.scenarios.map(({ name, zone }) => [
    scenarioNames[name],
    shownIn("g/m3").text(zone.peak),
    zone.overLfl === undefined ? "no limit" : `${(100 * zone.overLfl).toFixed(0)} %`,
    burnsFor(zone.aboveLfl),
    zone.safeMass === undefined
      ? "any mass"
      : `at most ${page.units.thing("small-mass").text(zone.safeMass)}`,
  ]),
});

/** Where no limit of flame is known or nothing burns: what is in the air, and what is left of it. */
const plainTable = ({ scenarios }: HazardFinding): PictureTable => ({
  caption: "The whole charge at once",
  head: ["Assumption", "Peak", "By volume", "Oxygen left"],
  rows: scenarios.map(({ name, zone }) => [
    scenarioNames[name],
    shownIn("g/m3").text(zone.peak),
    `${(100 * zone.fraction).toPrecision(2)} %`,
    `${(100 * zone.oxygen).toFixed(1)} %`,
  ]),
});

function burnsFor(seconds: number | null | undefined): string {
  if (seconds === undefined) return "no limit";
  if (seconds === null) return "does not clear";
  return seconds === 0 ? "never" : `${(seconds / 60).toPrecision(2)} min`;
}
