// Inputs of the weighing of what is in a can.
import fc from "fast-check";
import { span, log, text, psig, gauge, optional, joined, vehicle, ran } from "./shop-words.ts";

const canT = text(span(-20, 70), "°C");
const item = fc.oneof(
  fc.record(
    {
      kind: fc.constant("pressure"),
      pressure: fc.oneof(psig, log(1e3, 5e7)),
      temperature: canT,
      gauge,
      pressureU: log(1, 1e6),
      temperatureU: log(1e-3, 1e2),
      gaugeName: fc.constantFrom("red", "blue"),
      vessel: fc.constantFrom("can", "vehicle"),
    },
    { requiredKeys: ["kind", "pressure", "temperature"] },
  ),
  fc.record({ kind: fc.constant("boiling"), temperature: canT, pressure: psig }),
  fc.record({
    kind: fc.constant("fill"),
    mass: log(1e-3, 10),
    volume: log(1e-6, 0.1),
    full: fc.boolean(),
    vessel: fc.constantFrom("can", "vehicle"),
  }),
  fc.record({
    kind: fc.constant("liquid-density"),
    density: log(50, 3000),
    densityU: log(1e-3, 1e3),
    temperature: canT,
  }),
  fc.record({
    kind: fc.constant("identifier"),
    parts: fc.uniqueArray(
      fc.record({
        substance: fc.constantFrom("R134a", "R22", "R12", "hydrocarbons", "air", "R1234yf"),
        percent: span(0, 60),
      }),
      { minLength: 1, maxLength: 4, selector: ({ substance }) => substance },
    ),
    percentU: log(1e-3, 100),
  }),
  fc.record({
    kind: fc.constant("detector"),
    detects: fc.constantFrom("combustible", "halogen"),
    responded: fc.boolean(),
    falseYes: span(0.001, 0.5),
    falseNo: span(0.001, 0.5),
  }),
  fc.record({
    kind: fc.constant("running"),
    vehicle,
    label: fc.constantFrom("R134a", "R12", "HC 60/40"),
    charge: log(0.02, 10),
    chargeU: log(1e-4, 1),
    runs: ran(1),
    baseline: ran(0),
  }),
  fc.record({
    kind: fc.constant("label"),
    declares: fc.constantFrom("R134a", "R1234yf", "R12", "HC 50/40/10", "none"),
    trust: span(0, 1),
  }),
);

export const ofContents = joined(
  "identify",
  fc.record({ evidence: fc.array(item, { minLength: 1, maxLength: 6 }) }),
  optional({ seed: fc.integer({ min: 0, max: 1e9 }) }),
);
