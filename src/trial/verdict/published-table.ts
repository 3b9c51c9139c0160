import {
  cyclingSwitchPosition,
  operatingCaution,
  operatingConditions,
  operatingPressure,
  type TableVerdict,
  ventTemperature,
} from "../../service/index.ts";
import type { TrialView } from "../view.ts";
import {
  asMeasured,
  companion,
  type Expected,
  expectedFluid,
  measure,
  nothingExpected,
} from "./context.ts";
import type { ReadingInContext, Verdict, VerdictDetail } from "./view.ts";
import { shown, withoutBand } from "./words.ts";

const words = {
  within: "in the table",
  higher: "above the table",
  lower: "below the table",
} as const;

const conditions: VerdictDetail = {
  heading: "Measured on other vehicles",
  text: `${operatingConditions.join("; ")}. ${operatingCaution}`,
  source: "the table's own conditions",
};

/** The published tables hold for a vehicle at rest with its engine at idle. */
function onTheRoad(view: TrialView, reading: ReadingInContext): boolean {
  const condition = view.runs.find(({ id }) => id === reading.run)?.condition;
  if (condition !== undefined) return condition !== "parked-idle";
  const speed = reading.run === undefined ? undefined : companion(view, reading, "vehicle-speed");
  return (speed?.value ?? 0) > 1;
}

/** Low or high side against the published R134a operating table, or a cycling end against published switch settings. */
export function publishedPressure(view: TrialView, reading: ReadingInContext): Verdict {
  const { value, u = 0 } = measure(view, reading);
  const bare = withoutBand({ value, u });
  const gauge = value - view.atmosphere.value;
  const low = reading.quantity === "low-side";
  if (reading.form !== "steady") {
    return low
      ? judgeSwitch(reading.form, gauge, bare)
      : bare("no published band", cyclingSentence);
  }
  const expected = expectedFluid(view, reading);
  const ambient = companion(view, reading, "outside-temperature");
  if (!expected) return bare(...nothingExpected(view, reading));
  const missing = whyNot(expected, onTheRoad(view, reading));
  if (missing) return bare("no published band", missing);
  if (!ambient) return bare("needs outside air", "Enter the outside temperature first.");
  const verdict = operatingPressure({
    side: low ? "low" : "high",
    fluid: expected.fluid ?? "",
    ambient: { T: ambient.value, u: asMeasured(ambient).u },
    pressure: { form: "steady", p: gauge, u },
  });
  const at = `${shown(ambient.value, ambient.typed.unit)} outside`;
  return fromTable(verdict, { value, u }, at, view.atmosphere.value);
}

/** Vent temperature against the published R134a table: it needs the air at the intake and its humidity. */
export function publishedVent(view: TrialView, reading: ReadingInContext): Verdict {
  const { value, u = 0 } = measure(view, reading);
  const bare = withoutBand({ value, u });
  const expected = expectedFluid(view, reading);
  if (!expected) return bare(...nothingExpected(view, reading));
  const missing = whyNot(expected, onTheRoad(view, reading));
  if (missing) return bare("no published band", missing);
  const inlet = companion(view, reading, "return-air-temperature");
  const humidity = companion(view, reading, "return-air-humidity");
  if (!inlet || !humidity) {
    return bare(
      "needs return air",
      "Enter temperature and humidity of the air at the intake: without them a vent temperature has no band.",
    );
  }
  const verdict = ventTemperature({
    fluid: expected.fluid ?? "",
    inlet: { T: inlet.value, u: asMeasured(inlet).u },
    relativeHumidity: humidity.value,
    vent: { T: value, u },
  });
  return fromTable(
    verdict,
    { value, u },
    `${shown(inlet.value, inlet.typed.unit)} at the intake`,
    0,
  );
}

const cyclingSentence =
  "This is one end of a cycling clutch's swing. It is kept as such, because a single number in between misleads.";

function whyNot(expected: Expected, moving: boolean): string | undefined {
  if (expected.fluid !== "R134a") {
    return `The published table speaks for R134a only, not for ${expected.name}. The reading is kept for the comparison.`;
  }
  return moving
    ? "The published table was measured at idle: it says nothing about this run. The reading is kept for the comparison."
    : undefined;
}

function judgeSwitch(
  end: "lowest" | "highest",
  gauge: number,
  bare: (word: string, sentence: string) => Verdict,
): Verdict {
  const compared = cyclingSwitchPosition(end, gauge, 0);
  const turns = end === "lowest" ? "opens" : "closes";
  const verdict = bare(
    "cycling",
    `${cyclingSentence} It lies ${compared.position} the published pressures at which cycling switches ${turns}.`,
  );
  return { ...verdict, sources: compared.sources };
}

function fromTable(
  verdict: TableVerdict,
  reading: { value: number; u: number },
  at: string,
  offset: number,
): Verdict {
  if (verdict.kind === "undecided") {
    const { limits } = verdict;
    const sentence = limits
      ? `The published R134a table does not cover this ${limits.quantity}: no band.`
      : cyclingSentence;
    return { ...withoutBand(reading)("outside the table", sentence), details: [conditions] };
  }
  const band = { from: verdict.band.from + offset, to: verdict.band.to + offset };
  return {
    kind: verdict.verdict,
    word: words[verdict.verdict],
    sentence: sentences[verdict.verdict],
    reading,
    band,
    basis: `Published R134a operating table of other vehicles, at ${at}`,
    details: [conditions],
    sources: [verdict.source],
  };
}

const sentences = {
  within:
    "Other vehicles on R134a read the same in such air. That does not prove this one healthy.",
  higher:
    "The reading is higher than other vehicles on R134a show in such air. Look for a second sign before naming a fault.",
  lower:
    "The reading is lower than other vehicles on R134a show in such air. Look for a second sign before naming a fault.",
} as const;
