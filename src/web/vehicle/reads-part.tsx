import type { Answer } from "../../calculations/index.ts";
import { BandScale, ChargeBars, type ChargeBarsProps, chargeTable } from "../../report/index.ts";
import { Basis, Figure, Figures } from "../fluids/said.tsx";
import { Fit } from "../look/fit.tsx";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import type { VehicleCase } from "./vehicle-case.ts";
import type { ChargePart, ReadingName, Running, Span, Standing } from "./vehicle-results.ts";
import type { VehicleUnits } from "./vehicle-units.ts";
import {
  partNames,
  quantityNames,
  readingText,
  regimeText,
  shownOf,
  spanText,
  uncertaintyOf,
} from "./vehicle-words.ts";

interface Props {
  readonly run: Running;
  readonly current: boolean;
  readonly asked: VehicleCase;
  readonly answer: Answer | undefined;
  readonly units: VehicleUnits;
}

const figureNames = [
  "capacity",
  "power",
  "cop",
  "discharge",
  "superheat",
  "subcooling",
  "duty",
] as const;

/** Readings with their bands, and what lies behind them. */
export function ReadsSheet({ run, current, asked, answer, units }: Props) {
  const { band } = run;
  return (
    <section class="sheet" aria-labelledby="vehicle-reads">
      <h2 id="vehicle-reads">Readings and their bands</h2>
      <p class="told">
        <strong>Not fitted to this vehicle.</strong> The bands hold what vehicles of this kind may
        differ by (95 %). A baseline of the vehicle itself comes before them.
      </p>
      <div class={current ? "vehicle-bands" : "vehicle-bands is-stale"}>
        {(["low", "high", "vent"] as const).map((name) => (
          <Band key={name} {...{ name, run, units }} />
        ))}
      </div>
      <Figures stale={!current}>
        {figureNames.map((name) => {
          const limits = band?.[name];
          return (
            <Figure
              key={name}
              label={quantityNames[name]}
              value={readingText(name, run, units, limits && uncertaintyOf(limits))}
              small={limits && spanText(shownOf(name, units).of, limits)}
            />
          );
        })}
      </Figures>
      <p>{regimeText(run.regime, asked.preset)}</p>
      {run.notes.length > 0 && (
        <ul class="vehicle-notes" aria-label="Notes">
          {run.notes.map(({ code, text }) => (
            <li key={code}>{text}</li>
          ))}
        </ul>
      )}
      <Basis answers={[answer]} />
    </section>
  );
}

const titles = {
  low: { steady: "Low side", cycling: "Low side, swings as the clutch cycles" },
  high: { steady: "High side", cycling: "High side while the clutch is engaged" },
  vent: { steady: "Vent air", cycling: "Vent air, mean" },
} as const;

interface BandProps {
  readonly name: keyof typeof titles;
  readonly run: Running;
  readonly units: VehicleUnits;
}

function Band({ name, run, units }: BandProps) {
  const cycling = run.lowRange !== undefined;
  const limits = limitsOf(name, run);
  return (
    <Fit>
      {(width) => (
        <BandScale
          id={`vehicle-band-${name}`}
          title={titles[name][cycling ? "cycling" : "steady"]}
          shown={shownOf(name, units).of}
          readingText={readingText(name, run, units, limits && uncertaintyOf(limits))}
          {...(limits && { band: limits })}
          width={width}
        />
      )}
    </Fit>
  );
}

/** The band of what a gauge shows: a swing has it around both of its ends. */
function limitsOf(
  name: ReadingName,
  { band, low, lowRange, high, highOn, ...run }: Running,
): (Span & { readonly expected?: number }) | undefined {
  if (name === "low" && band?.low && lowRange) {
    return {
      from: lowRange.from - (low - band.low.from),
      to: lowRange.to + (band.low.to - low),
    };
  }
  if (name === "high") {
    const engaged = highOn !== undefined ? band?.highOn : band?.high;
    return engaged && { ...engaged, expected: highOn ?? high };
  }
  const limits = band?.[name];
  return limits && { ...limits, expected: name === "low" ? low : run.vent };
}

const partOrder: readonly ChargePart[] = [
  "condenser",
  "liquidLine",
  "evaporator",
  "bufferLiquid",
  "bufferVapour",
  "suctionLine",
  "dischargeLine",
];

/** Where the charge lies, to scale. */
export function ChargeSheet({ run, asked, units }: Omit<Props, "answer" | "current">) {
  const names = partNames(asked.preset);
  const parts = partOrder.map((part) => ({ name: names[part], mass: run.charge[part] }));
  const total = parts.reduce((sum, { mass }) => sum + mass, 0);
  const [largest] = [...parts].sort((a, b) => b.mass - a.mass);
  const props: Omit<ChargeBarsProps, "width"> = {
    id: "vehicle-charge",
    title: largest
      ? `${largest.name} ${units.mass.text(largest.mass)} of ${units.mass.text(total)}: the largest part of the charge`
      : "Where the charge lies",
    shown: units.mass,
    parts,
  };
  return (
    <section class="sheet" aria-labelledby="vehicle-charge-head">
      <h2 id="vehicle-charge-head">Where the charge lies</h2>
      <PictureSheet
        title={props.title}
        note="Coldproof. Model of this kind of vehicle in steady running, not fitted to this one."
        table={chargeTable({ ...props, width: 0 })}
        draw={(width, height) => (
          <ChargeBars {...props} width={width} {...(height !== undefined && { height })} />
        )}
      />
    </section>
  );
}

/** Why there is nothing to read. */
export function NoReads({ run, units }: { readonly run: Standing; readonly units: VehicleUnits }) {
  return (
    <section class="sheet" aria-labelledby="vehicle-none">
      <h2 id="vehicle-none">
        {run.state === "stopped" ? "It would not run steadily" : "No answer"}
      </h2>
      <p class="told">{run.message}</p>
      {run.resting !== undefined && (
        <p>At rest both gauges would stand at {units.gauge.text(run.resting)}.</p>
      )}
    </section>
  );
}
