import { z } from "zod";
import {
  type Diagnosis,
  type DiagnosisNote,
  type FaultName,
  faultFacts,
  faultNames,
  faultQuantities,
  type NextReading,
  nextPlaces,
  onlySign,
  severityUnit,
  signsNeeded,
} from "../evidence/index.ts";

const fault = z.enum(faultNames);
const reading = z.enum(faultQuantities);
const run = z.number().int().describe("Place of its run among `runs`");
const severity = z
  .strictObject({
    median: z.number(),
    from: z.number(),
    to: z.number(),
    unit: z.enum(["share", "Pa", "K", "none"]),
    of: z.string().describe("What it is a share or an amount of"),
  })
  .describe("If this is the fault: median and 95 % interval");

export const diagnosisSchema = z.strictObject({
  runs: z.array(z.string()).describe("Names of the runs that were judged together"),
  named: z
    .enum([...faultNames.filter((name) => name !== "none"), "healthy", "undecided"])
    .describe("The fault that may be named, healthy, or undecided"),
  suspected: fault.optional().describe("The likeliest fault where none may be named"),
  sentence: z.string(),
  fits: z.boolean().describe("Whether anything in the list shows these readings"),
  faults: z
    .array(
      z.strictObject({
        name: fault,
        title: z.string(),
        probability: z.number(),
        severity: severity.optional(),
        independentSigns: z.number().describe("Signs for it that do not repeat each other"),
        signs: z.array(
          z.strictObject({
            reading,
            run,
            says: z.enum(["for", "against", "neither"]),
            fromHealthy: z.number().describe("Distance from a sound vehicle, standard deviations"),
            fromFault: z.number().describe("Distance from this fault, standard deviations"),
          }),
        ),
        settles: z.string().describe("What settles it at the vehicle"),
      }),
    )
    .describe("By probability; none is a sound vehicle"),
  readings: z.array(
    z.strictObject({
      reading,
      run,
      value: z.number(),
      u: z.number().describe("Standard uncertainty of the instrument"),
      expected: z.number().describe("In a sound vehicle"),
      band: z
        .strictObject({ from: z.number(), to: z.number() })
        .describe("95 % band of sound vehicles"),
    }),
  ),
  substitutes: z
    .array(z.strictObject({ name: z.string(), probability: z.number() }))
    .describe("What may be inside instead: representatives, not an identification"),
  leading: z.array(fault).describe("The two that `next` would tell apart"),
  next: z.array(
    z.strictObject({
      reading,
      where: z.enum(nextPlaces),
      run: run.optional(),
      information: z.number().describe("Expected information on which of the two holds, bit"),
      minutes: z.number(),
      says: z.string(),
      expected: z
        .array(z.strictObject({ fault, value: z.number(), sd: z.number() }))
        .describe("What each of the two would show"),
    }),
  ),
  notes: z.array(z.strictObject({ code: z.string(), text: z.string() })),
});

/** Result of `diagnose`. */
export type DiagnosisResult = z.infer<typeof diagnosisSchema>;

const NOTES: Readonly<Record<DiagnosisNote, string>> = {
  "low-side-held":
    "A control holds the low side here, by cycling or by displacement: it stays near its setting whatever the charge, and tells little.",
  "valve-hides-charge":
    "An expansion valve with a receiver keeps its readings until most of the reserve is gone: a small lack of charge cannot be seen, only weighed.",
  "nothing-fits":
    "No fault of this list shows these readings, alone. Check the readings, the instruments and the conditions first; two faults at once are not in the list.",
  "few-readings": "One reading decides nothing: two independent signs are needed.",
};

const severityOf: Readonly<Record<FaultName, string>> = {
  none: "",
  undercharge: "of the charge is missing",
  overcharge: "of the charge is too much",
  air: "of air left in before charging",
  "condenser-airflow": "of the condenser's air is missing",
  restriction: "of the expansion area is missing",
  "weak-compressor": "of the compressor's flow is missing",
  "stuck-open": "of the valve's full opening at least, or of an orifice's area too much",
  "wrong-refrigerant": "",
  "heat-leak": "warmer at the vent",
  "evaporator-airflow": "of the evaporator's air is missing",
};

const placeWords: Readonly<Record<Exclude<NextReading["where"], "here">, string>> = {
  "at-rest": "after a long rest with the engine off, with the metal's temperature",
  "raised-idle": "in a run parked at 1500 rpm",
  idle: "in a run parked at idle",
  road: "in a run on the road at a steady speed",
  "warmer-day": "in a run on a warmer day",
};
const readingWords: Readonly<Record<NextReading["quantity"], string>> = {
  low: "Low side",
  high: "High side",
  vent: "Vent temperature",
  superheat: "Suction-line temperature at the evaporator, for superheat",
  subcooling: "Liquid-line temperature, for subcooling",
  discharge: "Discharge-line temperature",
  liquidLine: "Liquid-line temperature at the condenser",
  duty: "Share of time in which the clutch is engaged",
  static: "Static pressure",
};

function placeText({ where, run: place = 0 }: NextReading, runs: readonly string[]): string {
  if (where !== "here") return placeWords[where];
  return runs.length > 1 ? `in ${quoted(runs[place] ?? "")} once more` : "in this run";
}

const quoted = (name: string): string => (/^run \d+$/.test(name) ? name : `“${name}”`);

/** @param runs Names of the runs. */
export function diagnosisView(found: Diagnosis, runs: readonly string[]): DiagnosisResult {
  const { named, suspected, fits, faults, readings, substitutes, leading, next, notes } = found;
  return {
    runs: [...runs],
    named,
    ...(suspected && { suspected }),
    sentence: sentenceOf(found),
    fits,
    faults: faults.map(({ name, probability, severity: range, independentSigns, signs }) => ({
      name,
      title: faultFacts(name).title,
      probability,
      ...(range && { severity: { ...range, unit: severityUnit[name], of: severityOf[name] } }),
      independentSigns,
      signs: signs.map(({ quantity, run: place, says, fromHealthy, fromFault }) => ({
        reading: quantity,
        run: place,
        says,
        fromHealthy,
        fromFault,
      })),
      settles: faultFacts(name).settles,
    })),
    readings: readings.map(({ quantity, run: place, value, u, healthy: { mean, sd } }) => ({
      reading: quantity,
      run: place,
      value,
      u,
      expected: mean,
      band: { from: mean - COVERAGE * sd, to: mean + COVERAGE * sd },
    })),
    substitutes: substitutes.map(({ composition: { ids, fractions }, probability }) => ({
      name:
        ids.length === 1
          ? ids.join("")
          : `${ids.join("/")} (${fractions.map((f) => Math.round(100 * f)).join("/")} % by mass)`,
      probability,
    })),
    leading: [...leading],
    next: next.map((one) => ({
      reading: one.quantity,
      where: one.where,
      ...(one.run !== undefined && { run: one.run }),
      information: one.information,
      minutes: one.minutes,
      says: `${readingWords[one.quantity]}, ${placeText(one, runs)}`,
      expected: one.expected.map(({ fault: name, mean, sd }) => ({ fault: name, value: mean, sd })),
    })),
    notes: notes.map((code) => ({ code, text: NOTES[code] })),
  };
}

/** Normal distribution, 95 %. */
const COVERAGE = 1.96;

function sentenceOf({ named, suspected, faults, readings, fits, next }: Diagnosis): string {
  const lower = (name: FaultName): string => {
    const { title } = faultFacts(name);
    return title.charAt(0).toLowerCase() + title.slice(1);
  };
  if (named === "healthy") {
    return "Nothing in these readings speaks against a sound vehicle.";
  }
  if (named !== "undecided") {
    return `${faultFacts(named).title}: two independent signs speak for it, and nothing else in the list shows these readings as well.`;
  }
  if (readings.length < 2) return "Too few readings: two independent signs are needed.";
  if (!fits) return "Nothing in the list shows these readings.";
  if (suspected === undefined) return "These readings do not tell sound from faulty.";
  const signs = faults.find(({ name }) => name === suspected)?.independentSigns ?? 0;
  const alone = aloneText(suspected, signs);
  if (alone !== undefined) return `Suspected, not named: ${lower(suspected)}. ${alone}`;
  const why =
    signs < signsNeeded
      ? `${signs === 0 ? "no reading alone is" : "only one independent reading is"} a sign of it`
      : "something else shows these readings nearly as well";
  const then = next.length > 0 ? " Take the next reading before naming it." : "";
  return `Suspected, not named: ${lower(suspected)}; ${why}.${then}`;
}

/** Of a fault that moves one reading only: why no reading of the list will name it, and what is left to do. */
function aloneText(name: FaultName, signs: number): string | undefined {
  const only = onlySign(name);
  if (only === undefined) return undefined;
  const reading = readingWords[only].toLowerCase();
  const shown =
    signs === 0 ? `Not even the ${reading} is a clear sign of it` : `One sign only: the ${reading}`;
  return `${shown}. It moves nothing else that is read here, so no further reading of this list can be the second sign: confirm it by hand at the vehicle.`;
}
