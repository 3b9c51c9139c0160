import { type StatePoint, thinned } from "./phase-points.ts";
import type { PictureTable } from "./picture.tsx";
import type { PressureEnthalpyProps } from "./pressure-enthalpy-props.ts";

/** The chart in a few sentences: for those who hear it. */
export function pressureEnthalpyDescription(props: PressureEnthalpyProps): string {
  const { bubble, critical, states, cycles, isotherms, qualities, shown } = props;
  const first = bubble[0];
  const last = bubble.at(-1);
  const said = (state: StatePoint): string =>
    `${shown.T.text(state.T)}, ${shown.p.text(state.p)}, ${shown.h.text(state.h)}`;
  return [
    "Pressure on a scale of decades against enthalpy.",
    first && last
      ? `Liquid and vapour lie together under a dome, drawn from ${shown.T.text(first.T)} to ${shown.T.text(last.T)}.`
      : "No line of boiling is drawn.",
    critical ? `Critical point: ${said(critical)}.` : "",
    `${qualities.length} lines of vapour fraction and ${isotherms.length} of temperature.`,
    ...states.map((state) => `${state.name}: ${said(state)}.`),
    ...cycles.map(
      ({ name, corners }) =>
        `${name}: ${corners.map((corner) => `${corner.name} at ${said(corner)}`).join("; ")}.`,
    ),
  ]
    .filter((text) => text !== "")
    .join(" ");
}

/** Rows of a line that are worth reading. */
const ROWS = 9;

/** The numbers behind the chart. */
export function pressureEnthalpyTable(props: PressureEnthalpyProps): PictureTable {
  const { bubble, dew, critical, states, cycles, shown } = props;
  const row = (name: string, state: StatePoint): string[] => [
    name,
    shown.T.text(state.T),
    shown.p.text(state.p),
    shown.h.text(state.h),
  ];
  return {
    caption: props.title,
    head: ["What", "Temperature", "Pressure", "Enthalpy"],
    rows: [
      ...states.map((state) => row(state.name, state)),
      ...cycles.flatMap(({ name, corners }) =>
        corners.map((corner) => row(`${name}, ${corner.name}`, corner)),
      ),
      ...(critical ? [row("critical point", critical)] : []),
      ...thinned(bubble, ROWS).map((state) => row("boiling liquid", state)),
      ...thinned(dew, ROWS).map((state) => row("condensing vapour", state)),
    ],
  };
}
