import {
  type Accuracy as ScaleAccuracy,
  instrumentUncertainty as uncertaintyOnScale,
} from "../service/index.ts";
import { type Quantity, toSI, unitSize } from "../units/index.ts";
import type { Accuracy } from "./events.ts";
import type { InstrumentView } from "./view.ts";

type Instrument = Pick<InstrumentView, "accuracy" | "resolution" | "measures">;

/**
 * Standard uncertainty, SI, of one reading of a listed instrument: its class and its display's step.
 * The class is applied on the instrument's own scale: gauge pascal, °C, else SI.
 *
 * @param value       SI value that was read.
 * @param atmosphere  Local air pressure, Pa.
 */
export function instrumentUncertainty(
  instrument: Instrument,
  value: number,
  atmosphere: number,
): number {
  const zero = zeroOf(instrument.measures, atmosphere);
  const accuracy = onScale(instrument.accuracy, zero, atmosphere);
  const step = instrument.resolution ? sizeOf(instrument.resolution) : 0;
  return uncertaintyOnScale(accuracy, value - zero, step).u;
}

/** SI value at which the instrument's face shows nothing: percentages of a reading count from there. */
function zeroOf(measures: InstrumentView["measures"], atmosphere: number): number {
  if (measures === "pressure") return atmosphere;
  return measures === "temperature" ? 273.15 : 0;
}

const sizeOf = (quantity: Quantity): number => Math.abs(quantity.value) * unitSize(quantity.unit);

function onScale(accuracy: Accuracy, zero: number, atmosphere: number): ScaleAccuracy {
  switch (accuracy.kind) {
    case "percent-of-span":
    case "percent-of-span-by-quarter": {
      const from = toSI(accuracy.from, atmosphere) - zero;
      const to = toSI(accuracy.to, atmosphere) - zero;
      return { ...accuracy, from, to };
    }
    case "limit":
    case "limit-or-percent":
      return { ...accuracy, limit: sizeOf(accuracy.limit) };
    case "percent-of-reading":
      return accuracy;
  }
}
