import type { RunView } from "../view.ts";
import { foundEmpty, holdKnown, transferPosted } from "./in-and-out.ts";
import {
  confirmed,
  type Facts,
  type Place,
  readingsTaken,
  requirement,
  returnAirKnown,
  runRecorded,
  type Standing,
  type Wording,
} from "./requirements.ts";
import type { Requirement } from "./view.ts";

/** What each stage needs before it can be called done. */
type Rule = (facts: Facts, entries: Standing, place: Place) => readonly Requirement[];

const setUp = (id: string, words: Wording, met: boolean, missing: string): Requirement =>
  requirement(id, "set-up", words, { met, done: "It is written down.", missing });

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

const onLabel =
  ({ vehicle }: Facts) =>
  ({ charged }: RunView): boolean =>
    charged.kind === "fluid" && charged.fluid === vehicle?.labelRefrigerant;

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

export const recover: Rule = (facts, entries, place) => [
  transferPosted(facts, entries, place, {
    id: "recovered",
    words: ["Recover into a cylinder and weigh it.", "What came out is in a cylinder and weighed."],
    side: "from",
  }),
  readingsTaken(
    facts,
    place,
    "end-pressure",
    ["Read the low side at the end of recovery.", "The low side was read at the end of recovery."],
    ["low-side"],
  ),
  readingsTaken(
    facts,
    place,
    "oil",
    ["Measure the oil that came out.", "The oil that came out is measured."],
    ["oil-drained"],
  ),
];

export const evacuate: Rule = (facts, entries, place) => [
  readingsTaken(
    facts,
    place,
    "vacuum",
    [
      "Read the vacuum reached, and the shop's temperature.",
      "The vacuum reached and the shop's temperature are known.",
    ],
    ["vacuum", "shop-temperature"],
  ),
  holdKnown(facts, place),
  foundEmpty(entries, place),
];

export const charge: Rule = (facts, entries, place) => [
  transferPosted(facts, entries, place, {
    id: "charged",
    words: [
      "Charge the product from a weighed vessel.",
      "The product is in, from a weighed vessel.",
    ],
    side: "to",
    ...(place.round !== undefined && { substance: `product:${place.round}` }),
  }),
  readingsTaken(
    facts,
    place,
    "oil",
    ["Put back as much oil as came out.", "The oil that came out is back."],
    ["oil-returned"],
  ),
];

export const run: Rule = (facts, _entries, place) => {
  const onProduct = ({ charged }: RunView) =>
    charged.kind === "product" && charged.product === place.round;
  const parked = ({ condition }: RunView) => condition.startsWith("parked");
  return [
    runRecorded(
      facts,
      place,
      "parked",
      ["Record a settled run, parked.", "A settled run, parked, is recorded."],
      (r) => onProduct(r) && parked(r),
    ),
    runRecorded(
      facts,
      place,
      "road",
      ["Record a settled run on the road.", "A settled run on the road is recorded."],
      (r) => onProduct(r) && !parked(r),
    ),
    returnAirKnown(facts, place),
  ];
};

export const identify: Rule = (facts, _entries, place) => [
  readingsTaken(
    facts,
    place,
    "contents",
    [
      "Read the can's pressure with the temperature of its liquid.",
      "The can's pressure and temperature were read.",
    ],
    ["vessel-pressure", "vessel-temperature"],
  ),
];

export const restore: Rule = (facts, entries, place) => [
  transferPosted(facts, entries, place, {
    id: "recovered",
    words: [
      "Recover the product into its own cylinder and weigh it.",
      "The product is out, in its own cylinder, and weighed.",
    ],
    side: "from",
  }),
  foundEmpty(entries, place),
  transferPosted(facts, entries, place, {
    id: "charged",
    words: ["Charge the label mass, weighed.", "The label charge is in, weighed."],
    side: "to",
    ...(facts.vehicle && { substance: `fluid:${facts.vehicle.labelRefrigerant}` }),
  }),
  runRecorded(
    facts,
    place,
    "baseline-again",
    [
      "Record a run on the label refrigerant again.",
      "A run on the label refrigerant again is recorded.",
    ],
    onLabel(facts),
  ),
  returnAirKnown(facts, place),
  confirmed(facts, place, "label-true", [
    "Look at the vehicle's label: it must say what is in it.",
    "The vehicle's label says what is in it.",
  ]),
];

export const compare: Rule = (facts) => {
  const lacking = facts.products.filter(
    ({ id }) => !facts.comparisons.some(({ product, rows }) => product === id && rows.length > 0),
  );
  return [
    requirement(
      "compared",
      "run",
      [
        "Run each product in a condition of the label refrigerant's runs.",
        "Each product has runs beside the label refrigerant's.",
      ],
      {
        met: facts.products.length > 0 && lacking.length === 0,
        done: "Every product stands beside the label refrigerant.",
        missing: `No common condition yet for ${lacking.map(({ name }) => name).join(", ") || "any product"}.`,
      },
    ),
    requirement(
      "drift",
      "run",
      [
        "Run the label refrigerant again in Restore, as in Prove.",
        "The vehicle's own drift between Prove and Restore is known.",
      ],
      {
        met: facts.drift.length > 0,
        done: `${facts.drift.length} figures stand on both sides.`,
        missing: "No run of Restore is in a condition of Prove yet.",
      },
    ),
  ];
};

export const hazards: Rule = (facts, _entries, place) => [
  setUp(
    "vehicle-cabin",
    ["Give the cabin's volume.", "The cabin's volume is known."],
    facts.vehicle?.cabinVolume !== undefined,
    "Without it no concentration can be told.",
  ),
  confirmed(facts, place, "hazards-understood", [
    "Read what a leak would do.",
    "What a leak would do has been read.",
  ]),
];

export const claims: Rule = (facts, _entries, place) => [
  setUp(
    "product-claims",
    ["Write down what each label claims.", "What each label claims is written down."],
    facts.products.length > 0 && facts.products.every((product) => product.claims.length > 0),
    "A product has no claim yet.",
  ),
  confirmed(facts, place, "claims-read", [
    "Read the verdict on every claim.",
    "The verdict on every claim has been read.",
  ]),
];

export const publish: Rule = (facts, _entries, place) => {
  const open = facts.ledger.closures.filter(({ grade }) => grade === "does-not-close");
  const count = `${open.length} ${open.length === 1 ? "place does" : "places do"} not close`;
  return [
    confirmed(
      facts,
      place,
      "closures-read",
      open.length === 0
        ? ["Read the ledger to the end.", "The ledger has been read; everything closes."]
        : [`Read the ledger: ${count}.`, `The ledger has been read; ${count}.`],
    ),
    confirmed(facts, place, "answer-read", [
      "Read the report: does it answer the question as it was asked?",
      "The report answers the question as it was asked.",
    ]),
  ];
};
