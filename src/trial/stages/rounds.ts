import type { RunView } from "../view.ts";
import { foundEmpty, holdKnown, transferPosted } from "./in-and-out.ts";
import { readingsTaken, returnAirKnown, runRecorded } from "./requirements.ts";
import type { Rule } from "./rule.ts";

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
