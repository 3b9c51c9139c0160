import { foundEmpty, transferPosted } from "./in-and-out.ts";
import { confirmed, requirement, returnAirKnown, runRecorded } from "./requirements.ts";
import { onLabel, type Rule, setUp } from "./rule.ts";

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
