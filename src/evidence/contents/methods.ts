import { yesProbability } from "./detect.ts";
import type { Evidence } from "./evidence.ts";
import type { Matter } from "./matter.ts";
import { FILLED, SHARED } from "./score.ts";

/** A measurement that could be taken, and what it would show. None releases, heats or lights anything. */
export interface Method {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  readonly minutes: number;
  /** Already done: a second one of the same instrument says little new. */
  readonly done: (evidence: readonly Evidence[]) => boolean;
  /** What it would show at the point where a matter stands: a number with its spread, or the chance of a yes. */
  readonly foresee: (matter: Matter) => Foreseen | undefined;
}

/** A number with its spread, the chance of a yes, or an identifier's shares of what stands there. */
export type Foreseen =
  | { readonly kind: "number"; readonly mean: number; readonly sd: number }
  | { readonly kind: "yes"; readonly probability: number }
  | { readonly kind: "shares"; readonly matter: Matter };

const has = (test: (each: Evidence) => boolean) => (evidence: readonly Evidence[]) =>
  evidence.some(test);
const nearTo = (T: number) => has((each) => each.kind === "pressure" && Math.abs(each.T - T) < 8);

/** Two standard uncertainties of the usual shop instruments as one relative figure of pressure (common practice). */
const PRESSURE_U = 0.02;
const FINE_U = 0.004;
const VOLUME_U = 0.02;

function pressureAt(T: number, relative: number) {
  return (matter: Matter): Foreseen | undefined => {
    const p = matter.pressure(T, { vessel: "can" });
    if (p === undefined) return undefined;
    // What the gauge shares with the readings before it cannot tell the families apart again.
    const sd = p * Math.hypot(relative * Math.sqrt(1 - SHARED / 2), matter.modelU, matter.scatterU);
    return { kind: "number", mean: p, sd };
  };
}

const detector = (detects: "combustible" | "halogen"): Method => ({
  id: `${detects}-detector`,
  title: detects === "combustible" ? "Combustible-gas detector" : "Halogen leak detector",
  says:
    detects === "combustible"
      ? "Hold a detector rated for flammable gas at the closed, dry valve outdoors: a trace at the seal is enough. Release nothing for it, and never use a flame."
      : "Hold an electronic halogen detector at the closed valve: a trace at the seal is enough. One with a hot sensor must not be used where the content may burn.",
  minutes: 5,
  done: has((each) => each.kind === "detector" && each.detects === detects),
  foresee: (matter) => ({ kind: "yes", probability: yesProbability(matter.masses(), { detects }) }),
});

/** Every measurement that is ever proposed. */
export const methods: readonly Method[] = [
  {
    id: "weigh-full-can",
    title: "Weigh the full can and measure its volume",
    says: "Weigh it unopened, take off the tare, and measure its volume by the water it displaces. Nothing is opened.",
    minutes: 10,
    done: has((each) => each.kind === "fill" && each.vessel === "can" && each.full),
    foresee: (matter) => {
      const rhoL = matter.liquidDensity(293.15);
      if (rhoL === undefined) return undefined;
      return {
        kind: "number",
        mean: FILLED.mean * rhoL,
        sd: rhoL * Math.hypot(FILLED.sd, VOLUME_U),
      };
    },
  },
  {
    id: "pressure-in-shade",
    title: "Static pressure with the liquid's temperature",
    says: "Let the can stand in the shade for an hour, then read its pressure and the temperature of its wall below the liquid.",
    minutes: 60,
    done: nearTo(293.15),
    foresee: pressureAt(293.15, PRESSURE_U),
  },
  {
    id: "pressure-in-ice",
    title: "Static pressure in ice water",
    says: "Stand the can in ice and water for an hour and read its pressure: the temperature is then known within half a degree.",
    minutes: 60,
    done: nearTo(273.15),
    foresee: pressureAt(273.15, PRESSURE_U),
  },
  {
    id: "pressure-in-warm-water",
    title: "Static pressure in warm water, 40 °C at most",
    says: "Stand the can in water that a hand can bear, never above 40 °C, and read its pressure after half an hour. Never any other heat.",
    minutes: 40,
    done: nearTo(313.15),
    foresee: pressureAt(313.15, PRESSURE_U),
  },
  {
    id: "fine-gauge",
    title: "Static pressure with a gauge good to 0.25 %",
    says: "Borrow a tested gauge and a thermometer good to 0.2 K, and read the can again at rest.",
    minutes: 45,
    done: has((each) => each.kind === "pressure" && each.u < 0.006 * each.p && each.uT <= 0.25),
    foresee: pressureAt(293.15, FINE_U),
  },
  detector("combustible"),
  detector("halogen"),
  {
    id: "identifier",
    title: "Electronic refrigerant identifier",
    says: "Have a sample read by an identifier made for what may be inside. It knows a few refrigerants; of others it shows nonsense without saying so.",
    minutes: 20,
    done: has((each) => each.kind === "identifier"),
    foresee: (matter) => (matter.masses() ? { kind: "shares", matter } : undefined),
  },
];
