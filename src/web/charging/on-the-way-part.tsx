import {
  SweepChart,
  type SweepChartProps,
  sweepTable,
  type UnitChoice,
} from "../../report/index.ts";
import type { ChargingFinding } from "../../trial/index.ts";
import { Fold } from "../look/fold.tsx";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import type { ChargingProps } from "./target-part.tsx";

/** What the gauges should show while mass goes in, and where to stop whatever the scale says. */
export function OnTheWayPart({ finding, units }: ChargingProps) {
  const { plan } = finding;
  return (
    <section class="sheet service-sheet" aria-labelledby="way">
      <h2 id="way">While it goes in</h2>
      <StopMarks finding={finding} units={units} />
      {plan.atRest && (
        <Fold row title="What the gauges show on the way" said={restTitle(finding, units)}>
          <AtRest finding={finding} units={units} />
          {plan.running.some(({ state }) => state === "running") && (
            <Running finding={finding} units={units} />
          )}
        </Fold>
      )}
      {!plan.atRest && (
        <p class="empty">
          Enter the vehicle’s internal volume, and its pressures at rest appear here.
        </p>
      )}
    </section>
  );
}

function StopMarks({ finding, units }: ChargingProps) {
  const { plan, ambient } = finding;
  const mass = units.thing("small-mass");
  const high = units.quantity("high-side");
  return (
    <ul class="stop-marks">
      <li>
        <strong>Stop at {mass.text(plan.chosen.mass)}</strong> by the scale; never beyond{" "}
        {mass.text(plan.tolerance.to)}.
      </li>
      {plan.highStop && (
        <li>
          <strong>Stop if the high side passes {high.text(plan.highStop.to)}</strong> parked at 1500
          rpm with {units.quantity("outside-temperature").text(ambient)} outside. At the target the
          model expects {high.text(plan.highStop.expected)}: more is too much refrigerant, air, or a
          condenser without air.
        </li>
      )}
      <li>
        <strong>Stop if frost or liquid reaches the compressor,</strong> if it knocks, or if the
        superheat at its inlet falls to nothing.
      </li>
      <li>
        <strong>Stop if the low side pulls into vacuum</strong> while liquid stands in the can: a
        valve is shut or something is blocked.
      </li>
    </ul>
  );
}

const chartUnits = (units: UnitChoice) => ({
  mass: units.thing("small-mass"),
  low: units.quantity("low-side"),
  high: units.quantity("high-side"),
});

function restTitle({ plan, phase }: ChargingFinding, units: UnitChoice): string {
  if (!plan.atRest) return "";
  const { firstLiquid } = plan.atRest;
  const from = units.thing("small-mass").text(firstLiquid, firstLiquid / 20);
  return phase?.take === "liquid"
    ? `At rest liquid appears at ${from}; from there the gauge only creeps`
    : `At rest the gauge stops rising at ${from}`;
}

function AtRest({ finding, units }: ChargingProps) {
  const rest = finding.plan.atRest;
  if (!rest) return null;
  const { mass, low } = chartUnits(units);
  const props: Omit<SweepChartProps, "width"> = {
    id: "charge-rest",
    title: restTitle(finding, units),
    over: { name: "Mass in the system", shown: mass },
    lines: [
      {
        name: "Pressure at rest",
        shown: low,
        points: rest.points.map(({ mass: x, p: y }) => ({ x, y })),
      },
    ],
    gaps: [],
    here: finding.plan.chosen.mass,
  };
  return <Sheet props={props} note="Coldproof. Equilibrium in the internal volume." />;
}

function Running({ finding, units }: ChargingProps) {
  const { running, chosen } = finding.plan;
  const { mass, low, high } = chartUnits(units);
  const line = (name: string, key: "low" | "high", shown: typeof low) => ({
    name,
    shown,
    points: running.map((step) => {
      const y = step[key];
      return { x: step.mass, ...(y !== undefined && { y }) };
    }),
  });
  const props: Omit<SweepChartProps, "width"> = {
    id: "charge-running",
    title: runningTitle(finding, units),
    over: { name: "Mass in the system", shown: mass },
    lines: [line("High side", "high", high), line("Low side", "low", low)],
    gaps: gapsOf(running),
    here: chosen.mass,
  };
  return (
    <Sheet
      props={props}
      note="Coldproof. Model of this kind of vehicle parked at 1500 rpm, not fitted to this one."
    />
  );
}

function runningTitle({ plan }: ChargingFinding, units: UnitChoice): string {
  const first = plan.running.find(({ state }) => state === "running");
  const mass = units.thing("small-mass");
  if (plan.optimum?.kind !== "optimum") return "What the gauges should show while it goes in";
  const { from, to } = plan.optimum.plateau;
  return `Running from ${mass.text(first?.mass ?? 0)} on; at its best between ${mass.text(from)} and ${mass.text(to)}`;
}

const GAP = "The modelled system does not run with this little or this much.";

/** Stretches without an answer, each from its first step to its last. */
function gapsOf(running: ChargingFinding["plan"]["running"]): SweepChartProps["gaps"] {
  const gaps: { from: number; to: number; why: string }[] = [];
  let open = false;
  for (const { mass, state } of running) {
    const last = gaps.at(-1);
    if (state === "running") open = false;
    else if (open && last) last.to = mass;
    else {
      gaps.push({ from: mass, to: mass, why: GAP });
      open = true;
    }
  }
  return gaps;
}

interface SheetProps {
  readonly props: Omit<SweepChartProps, "width">;
  readonly note: string;
}

const Sheet = ({ props, note }: SheetProps) => (
  <PictureSheet
    title={props.title}
    note={`${note} Broken upright line: the target.`}
    table={sweepTable({ ...props, width: 0 })}
    draw={(width, height) => (
      <SweepChart {...props} width={width} {...(height !== undefined && { height })} />
    )}
  />
);
