import {
  confirmed,
  type Facts,
  readingsTaken,
  returnAirKnown,
  runRecorded,
} from "./requirements.ts";
import { onLabel, type Rule, setUp } from "./rule.ts";
import type { Requirement } from "./view.ts";

export const plan: Rule = (facts, _entries, place) => [
  ...asked(facts),
  ...listed(facts),
  confirmed(facts, place, "hazards-read", [
    "Read every caution of this page.",
    "Every caution of this page has been read.",
  ]),
  confirmed(facts, place, "law-asked", [
    "Find out whether these products are allowed here.",
    "It is known whether these products are allowed here.",
  ]),
];

/** The question and the vehicle that is to answer it. */
const asked = ({ opened, vehicle }: Facts): Requirement[] => [
  setUp(
    "question",
    ["Fix the question.", "The question is fixed."],
    opened !== undefined,
    "Nothing is asked yet.",
  ),
  setUp(
    "margin",
    [
      "Say which vent difference would matter, before the first reading.",
      "The smallest difference that matters is fixed before the data.",
    ],
    opened?.margin !== undefined,
    "Without it any difference could be called large or small afterwards.",
  ),
  setUp(
    "vehicle",
    ["Describe the vehicle.", "The vehicle is described."],
    vehicle !== undefined,
    "Its label names the refrigerant and the charge.",
  ),
];

/** What the work is done with and on. */
function listed({ instruments, products, vessels }: Facts): Requirement[] {
  const lacking = (["pressure", "temperature", "mass"] as const).filter(
    (kind) => !instruments.some(({ measures }) => measures === kind),
  );
  return [
    setUp(
      "instruments",
      [
        "List gauges, thermometer and scale with their class.",
        "Gauges, thermometer and scale are listed with their class.",
      ],
      lacking.length === 0,
      `Nothing is listed yet that measures ${lacking.join(" or ")}.`,
    ),
    setUp(
      "products",
      ["List what was bought.", "The products are listed."],
      products.length > 0,
      "No product is listed yet.",
    ),
    setUp(
      "vessels",
      [
        "List a refillable cylinder with tare, water capacity and rated pressure.",
        "A refillable cylinder is listed with tare, water capacity and rated pressure.",
      ],
      vessels.some(isCompleteCylinder),
      "No listed cylinder has all three marks yet.",
    ),
  ];
}

const isCompleteCylinder = (vessel: Facts["vessels"][number]): boolean =>
  vessel.kind === "cylinder" &&
  vessel.tare !== undefined &&
  vessel.waterCapacity !== undefined &&
  vessel.ratedPressure !== undefined;

export const prove: Rule = (facts, _entries, place) => [
  readingsTaken(
    facts,
    place,
    "static",
    ["Read pressure and metal at rest, after a night.", "Pressure and metal were read at rest."],
    ["static-low", "static-high", "metal-temperature"],
  ),
  runRecorded(
    facts,
    place,
    "baseline",
    ["Record a run on the label refrigerant.", "A run on the label refrigerant is recorded."],
    onLabel(facts),
  ),
  returnAirKnown(facts, place),
];
