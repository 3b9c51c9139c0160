import { vehicleAccount } from "../ledger/view.ts";
import { ofType } from "../plan.ts";
import type { RunView } from "../view.ts";
import {
  confirmed,
  type Facts,
  isAt,
  type Place,
  readingsTaken,
  requirement,
  returnAirKnown,
  runRecorded,
  type Standing,
} from "./requirements.ts";
import type { Requirement } from "./view.ts";

/** What each stage needs before it can be called done. */
type Rule = (facts: Facts, entries: Standing, place: Place) => readonly Requirement[];

const setUp = (id: string, text: string, met: boolean, missing: string): Requirement =>
  requirement(id, "set-up", text, { met, done: "written down", missing });

export const plan: Rule = (facts, _entries, place) => {
  const { opened, vehicle, instruments, products, vessels } = facts;
  const lacking = (["pressure", "temperature", "mass"] as const).filter(
    (kind) => !instruments.some(({ measures }) => measures === kind),
  );
  return [
    setUp("question", "The question is fixed.", opened !== undefined, "open the trial"),
    setUp(
      "margin",
      "The smallest difference that matters is fixed before the data.",
      opened?.margin !== undefined,
      "say how many kelvin at the vent would matter",
    ),
    setUp("vehicle", "The vehicle is described.", vehicle !== undefined, "describe the vehicle"),
    setUp(
      "instruments",
      "Gauges, thermometer and scale are listed with their class.",
      lacking.length === 0,
      `nothing listed that measures: ${lacking.join(", ")}`,
    ),
    setUp("products", "The products are listed.", products.length > 0, "list what was bought"),
    setUp(
      "vessels",
      "A refillable cylinder is listed with tare, water capacity and rated pressure.",
      vessels.some(isCompleteCylinder),
      "list a recovery cylinder with its three marks",
    ),
    confirmed(facts, place, "hazards-read", "Every caution of this page has been read."),
    confirmed(facts, place, "law-asked", "It is known whether these products are allowed here."),
  ];
};

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
  readingsTaken(facts, place, "static", "Pressure and metal at rest, after a night.", [
    "static-low",
    "static-high",
    "metal-temperature",
  ]),
  runRecorded(facts, place, "baseline", "A run on the label refrigerant.", onLabel(facts)),
  returnAirKnown(facts, place),
];

/** A transfer posted here, out of or into the vehicle, with a weighing behind it. */
function transferPosted(
  facts: Facts,
  entries: Standing,
  place: Place,
  what: { id: string; text: string; side: "from" | "to"; substance?: string },
): Requirement {
  const ids = ofType(entries, "transfer-posted")
    .filter(({ body }) => isAt(place, body) && body[what.side] === vehicleAccount)
    .map(({ id }) => id);
  const lines = facts.ledger.postings.filter(
    ({ entry, leg, to, parts }) =>
      ids.includes(entry) &&
      leg === "moved" &&
      to !== "lost" &&
      (!what.substance || parts.some(({ substance }) => substance === what.substance)),
  );
  const weighed = lines.some(({ evidence }) => evidence !== "stated");
  return requirement(what.id, "transfer", what.text, {
    met: weighed,
    done: `${lines.length} transfer${lines.length === 1 ? "" : "s"} weighed`,
    missing: lines.length === 0 ? "no transfer posted yet" : "posted, but nothing was weighed",
  });
}

function foundEmpty(entries: Standing, place: Place): Requirement {
  const met = ofType(entries, "vessel-found-empty").some(
    ({ body }) => isAt(place, body) && body.vessel === vehicleAccount,
  );
  return requirement("vehicle-empty", "transfer", "The vehicle was found empty.", {
    met,
    done: "recorded",
    missing: "record it once the vacuum holds",
  });
}

/** A hold: its trace, or at least three vacuum readings. */
function holdKnown(facts: Facts, place: Place): Requirement {
  const traces = facts.traces.filter((trace) => trace.kind === "hold" && isAt(place, trace));
  const readings = facts.readings.filter(
    (reading) => reading.quantity === "vacuum" && isAt(place, reading),
  );
  return requirement(
    "hold",
    "import",
    "The vacuum was watched with the pump off.",
    {
      met: traces.length > 0 || readings.length >= 3,
      done: traces.length > 0 ? "a hold trace is imported" : `${readings.length} readings`,
      missing: "import a hold, or read the vacuum three times with the pump off",
    },
    ["vacuum"],
  );
}

export const recover: Rule = (facts, entries, place) => [
  transferPosted(facts, entries, place, {
    id: "recovered",
    text: "What came out is in a cylinder and weighed.",
    side: "from",
  }),
  readingsTaken(facts, place, "end-pressure", "The low side at the end of recovery.", ["low-side"]),
  readingsTaken(facts, place, "oil", "The oil that came out is measured.", ["oil-drained"]),
];

export const evacuate: Rule = (facts, entries, place) => [
  readingsTaken(facts, place, "vacuum", "The vacuum reached, and the shop's temperature.", [
    "vacuum",
    "shop-temperature",
  ]),
  holdKnown(facts, place),
  foundEmpty(entries, place),
];

export const charge: Rule = (facts, entries, place) => [
  transferPosted(facts, entries, place, {
    id: "charged",
    text: "The product is in, from a weighed vessel.",
    side: "to",
    ...(place.round !== undefined && { substance: `product:${place.round}` }),
  }),
  readingsTaken(facts, place, "oil", "The oil that came out is back.", ["oil-returned"]),
];

export const run: Rule = (facts, _entries, place) => {
  const onProduct = ({ charged }: RunView) =>
    charged.kind === "product" && charged.product === place.round;
  const parked = ({ condition }: RunView) => condition.startsWith("parked");
  return [
    runRecorded(facts, place, "parked", "A settled run, parked.", (r) => onProduct(r) && parked(r)),
    runRecorded(
      facts,
      place,
      "road",
      "A settled run on the road.",
      (r) => onProduct(r) && !parked(r),
    ),
    returnAirKnown(facts, place),
  ];
};

export const restore: Rule = (facts, entries, place) => [
  transferPosted(facts, entries, place, {
    id: "recovered",
    text: "The product is out, in its own cylinder, and weighed.",
    side: "from",
  }),
  foundEmpty(entries, place),
  transferPosted(facts, entries, place, {
    id: "charged",
    text: "The label charge is in, weighed.",
    side: "to",
    ...(facts.vehicle && { substance: `fluid:${facts.vehicle.labelRefrigerant}` }),
  }),
  runRecorded(
    facts,
    place,
    "baseline-again",
    "A run on the label refrigerant again.",
    onLabel(facts),
  ),
  returnAirKnown(facts, place),
  confirmed(facts, place, "label-true", "The vehicle's label says what is in it."),
];

export const compare: Rule = (facts) => {
  const lacking = facts.products.filter(
    ({ id }) => !facts.comparisons.some(({ product, rows }) => product === id && rows.length > 0),
  );
  return [
    requirement("compared", "run", "Each product has runs beside the label refrigerant's.", {
      met: facts.products.length > 0 && lacking.length === 0,
      done: "every product stands beside the baseline",
      missing: `no common condition yet for: ${lacking.map(({ name }) => name).join(", ") || "any product"}`,
    }),
    requirement("drift", "run", "The vehicle's own drift between Prove and Restore is known.", {
      met: facts.drift.length > 0,
      done: `${facts.drift.length} readings on both sides`,
      missing: "no run of Restore in a condition of Prove yet",
    }),
  ];
};

export const publish: Rule = (facts, _entries, place) => {
  const open = facts.ledger.closures.filter(({ grade }) => grade === "does-not-close");
  return [
    confirmed(
      facts,
      place,
      "closures-read",
      open.length === 0
        ? "The ledger has been read; everything closes."
        : `The ledger has been read; ${open.length} ${open.length === 1 ? "place does" : "places do"} not close.`,
    ),
    confirmed(facts, place, "answer-read", "The report answers the question as it was asked."),
  ];
};
