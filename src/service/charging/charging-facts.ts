import published from "../../../data/facts/charging.json";
import { numbersFile, type PrintedNumber, sourced } from "../substances/fact.ts";

const names = [
  "massTolerance",
  "toleranceCharge",
  "scaleShare",
  "canFill",
  "hoseBore",
  "hoseLength",
  "hosePressure",
  "glide",
  "ambient",
  "condensing",
] as const;
const file = numbersFile(names).parse(published);

/** A number that charging is held against: SI, with its printed form and source. */
export const chargingNumber = (name: (typeof names)[number]): PrintedNumber =>
  sourced(file.numbers[name], file.sources);
