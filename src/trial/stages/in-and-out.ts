import { vehicleAccount } from "../ledger/view.ts";
import { ofType } from "../plan.ts";
import {
  type Facts,
  isAt,
  type Place,
  requirement,
  type Standing,
  type Wording,
} from "./requirements.ts";
import type { Requirement } from "./view.ts";

/** Requirements about what goes into the vehicle and out of it. */

/** A transfer posted here, out of or into the vehicle, with a weighing behind it. */
export function transferPosted(
  facts: Facts,
  entries: Standing,
  place: Place,
  what: { id: string; words: Wording; side: "from" | "to"; substance?: string },
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
  return requirement(what.id, "transfer", what.words, {
    met: weighed,
    done:
      lines.length === 1 ? "One transfer is weighed." : `${lines.length} transfers are weighed.`,
    missing:
      lines.length === 0
        ? "No transfer is posted yet."
        : "A transfer is posted, but nothing was weighed.",
  });
}

export function foundEmpty(entries: Standing, place: Place): Requirement {
  const met = ofType(entries, "vessel-found-empty").some(
    ({ body }) => isAt(place, body) && body.vessel === vehicleAccount,
  );
  return requirement(
    "vehicle-empty",
    "transfer",
    ["Record that the vehicle is empty.", "The vehicle was found empty."],
    {
      met,
      done: "It is recorded.",
      missing: "It can be recorded once the vacuum holds.",
    },
  );
}

/** A hold: its trace, or at least three vacuum readings. */
export function holdKnown(facts: Facts, place: Place): Requirement {
  const traces = facts.traces.filter((trace) => trace.kind === "hold" && isAt(place, trace));
  const readings = facts.readings.filter(
    (reading) => reading.quantity === "vacuum" && isAt(place, reading),
  );
  return requirement(
    "hold",
    "import",
    ["Watch the vacuum with the pump off.", "The vacuum was watched with the pump off."],
    {
      met: traces.length > 0 || readings.length >= 3,
      done:
        traces.length > 0
          ? "A hold is in the log; what it means stands beside its picture."
          : `${readings.length} readings are taken; a typed hold would say what they mean.`,
      missing:
        "Type a hold of eight readings or more, or import one. Three vacuum readings are the least.",
    },
    ["vacuum"],
  );
}
