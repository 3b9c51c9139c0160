import {
  holdFinding,
  quantityNames,
  type RunValue,
  type RunView,
  type TraceView,
  type Verdict,
} from "../../trial/index.ts";
import { airSourceNames, conditionNames, momentText, readingName } from "../names.ts";
import { HoldChart, holdTable } from "../pictures/hold-chart.tsx";
import { DataTable, FoldedTable } from "../pictures/picture.tsx";
import { TraceChart, traceTable } from "../pictures/trace-chart.tsx";
import { instrumentName, type Page, stageName, substanceName } from "./context.ts";
import { HoldWords } from "./hold-words.tsx";
import { runFigures } from "./run-figures.ts";
import { Section, type SectionEntry, Twice } from "./section.tsx";
import { holdPicture, tracePicture } from "./trace-picture.ts";

/** The runs with their figures, and the traces that they were cut from. */
export const Runs = ({ page, id, title }: { page: Page } & SectionEntry) => (
  <Section
    id={id}
    title={title}
    {...(page.view.runs.length === 0 && { lead: "No run was recorded." })}
  >
    {page.view.traces.map((trace) => (
      <Trace key={trace.id} trace={trace} page={page} />
    ))}
    {page.view.runs.map((run) => (
      <Run key={run.id} run={run} page={page} />
    ))}
  </Section>
);

function Trace({ trace, page }: { trace: TraceView; page: Page }) {
  const finding = trace.kind === "hold" ? holdFinding(page.view, trace) : undefined;
  const asHold = trace.kind === "hold" ? holdPicture(trace, page, finding) : undefined;
  const asRun = trace.kind === "run" ? tracePicture(trace, page) : undefined;
  return (
    <div class="trace">
      <h3>{stageName(page, trace.stage, trace.round)}</h3>
      <p class="quiet">
        {trace.fileName} · {trace.rows.read} rows read, {trace.rows.kept} kept
        {trace.problems.length > 0 &&
          ` · ${trace.problems.length} noted under “Corrections and data kept aside”`}
      </p>
      {asHold && (
        <>
          <Twice
            id={`trace-${trace.id}`}
            draw={(id, width) => <HoldChart id={id} width={width} {...asHold} />}
          />
          <FoldedTable table={holdTable({ id: "", width: 0, ...asHold })} />
          {finding && <HoldWords finding={finding} />}
        </>
      )}
      {asRun && (
        <>
          <Twice
            id={`trace-${trace.id}`}
            draw={(id, width) => <TraceChart id={id} width={width} {...asRun} />}
          />
          <FoldedTable table={traceTable({ id: "", width: 0, ...asRun })} />
        </>
      )}
    </div>
  );
}

const standings = {
  typed: "typed, judged by the tester",
  settled: "settled",
  "still-moving": "still moving",
  cycling: "cycling",
} as const;

const Run = ({ run, page }: { run: RunView; page: Page }) => (
  <div class="run">
    <h3>{run.name}</h3>
    <p class="quiet">
      {[
        momentText(run.when),
        conditionNames[run.condition],
        `charged with ${substanceName(page, run.charged)}`,
        airSourceNames[run.airSource],
        run.blower === "unknown" ? "blower not noted" : `blower ${run.blower}`,
        run.note,
      ]
        .filter((part) => part !== undefined)
        .join(" · ")}
    </p>
    {run.values.length > 0 && (
      <DataTable
        caption="Figures of this run: 95 % intervals, scatter and instrument together"
        head={["Quantity", "Figure", "Against the model", "How it was read"]}
        rows={runFigures(run, page).map(({ value, typedUnit, verdict }) => [
          readingName(value.quantity, value.form),
          page.units.quantity(value.quantity, typedUnit).pair(value),
          verdictText(verdict, page, value, typedUnit),
          `${standings[value.standing]}; ${sourceText(value, page)}`,
        ])}
      />
    )}
    {run.unusable.map(({ quantity, reason }) => (
      <p key={quantity} class="quiet">
        {quantityNames[quantity]} gives no figure: {reason}
      </p>
    ))}
  </div>
);

/** The word and the band it rests on; a typed figure is judged among the readings. */
function verdictText(
  verdict: Verdict | undefined,
  page: Page,
  { quantity }: RunValue,
  typedUnit: string | undefined,
): string {
  if (!verdict) return "";
  if (!verdict.band) return verdict.word;
  const { text } = page.units.quantity(quantity, typedUnit);
  return `${verdict.word} (${text(verdict.band.from)} to ${text(verdict.band.to)})`;
}

function sourceText({ source, instrument }: RunValue, page: Page): string {
  const by =
    instrument === undefined
      ? "no instrument named, so scatter alone"
      : instrumentName(page, instrument);
  return source.kind === "trace"
    ? `column ${source.column}, ${by}`
    : `${source.readings.length} ${source.readings.length === 1 ? "reading" : "readings"}, ${by}`;
}
