import { scaleLinear, scaleLog } from "d3-scale";
import { HorizontalAxis, TEXT } from "./axis.tsx";
import { LogVerticalAxis } from "./log-axis.tsx";
import { Picture } from "./picture.tsx";
import { pressureEnthalpyDescription } from "./pressure-enthalpy-words.ts";
import { CycleMarks, StateMarks } from "./state-marks.tsx";
import { Lines } from "./state-lines.tsx";
import type { Plot, ToPlace } from "./plot.ts";
import type { PressureEnthalpyProps } from "./pressure-enthalpy-props.ts";

const TOP = 26;
/** For the axis and the row of temperatures above it. */
const BELOW = 42;

/** Pressure on a scale of decades against enthalpy: what boils, what condenses, what lies between. */
export function PressureEnthalpyChart(props: PressureEnthalpyProps) {
  const { id, title, width, shown } = props;
  const height = props.height ?? (width < 480 ? 330 : Math.round(width * 0.56));
  const plot: Plot = { left: 40, right: width - 8, top: TOP, bottom: height - BELOW };
  const scales = scalesOf(props, plot);
  const place: ToPlace = ({ p, h }) => ({
    x: scales.h(shown.h.value(h)),
    y: scales.p(shown.p.value(p)),
  });
  return (
    <Picture
      kind="phase"
      id={id}
      title={title}
      description={pressureEnthalpyDescription(props)}
      width={width}
      height={height}
    >
      <clipPath id={`${id}-plot`}>
        <rect
          x={plot.left}
          y={plot.top}
          width={plot.right - plot.left}
          height={plot.bottom - plot.top}
        />
      </clipPath>
      <text class="pic-label" x={0} y={14} font-size={TEXT}>
        {shown.p.label}, log scale
      </text>
      <LogVerticalAxis scale={scales.p} x={plot.left} right={plot.right} />
      <Lines props={props} plot={plot} place={place} />
      <CycleMarks cycles={props.cycles} place={place} plot={plot} />
      <StateMarks states={props.states} place={place} plot={plot} />
      <HorizontalAxis
        scale={scales.h}
        y={plot.bottom + 16}
        right={width}
        unit={shown.h.label}
        gap={16}
      />
    </Picture>
  );
}

/** Room around what is drawn, as parts of its span. */
const AIR = 0.03;
/** How far above the critical point the scale goes on, as a factor of pressure. */
const HEADROOM = 1.35;

function scalesOf(props: PressureEnthalpyProps, plot: Plot) {
  const { bubble, dew, critical, isotherms, states, cycles, shown } = props;
  const marks = [...states, ...cycles.flatMap(({ points }) => points)];
  const envelope = [...bubble, ...dew, ...(critical ? [critical] : [])];
  const pressures = [...envelope, ...marks].map(({ p }) => shown.p.value(p));
  const lowest = Math.min(...[...dew, ...marks].map(({ p }) => shown.p.value(p)));
  const inView = isotherms
    .flatMap(({ line }) => line.flat())
    .filter(({ p }) => shown.p.value(p) >= lowest);
  const enthalpies = [...envelope, ...marks, ...inView].map(({ h }) => shown.h.value(h));
  const [from, to] = [Math.min(...enthalpies), Math.max(...enthalpies)];
  const air = (to - from) * AIR;
  return {
    p: scaleLog<number, number>()
      .domain([lowest, Math.max(...pressures) * HEADROOM])
      .range([plot.bottom, plot.top]),
    h: scaleLinear<number, number>()
      .domain([from - air, to + air])
      .range([plot.left, plot.right]),
  };
}
