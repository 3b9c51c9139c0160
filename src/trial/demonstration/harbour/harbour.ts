import { createRandom } from "../../../numerics/index.ts";
import type { TrialEvent } from "../../events.ts";
import { kg, millilitres, r134a, read } from "../hill-town-entries.ts";
import { InventedLog } from "../log.ts";
import { onScale } from "./logger.ts";
import { Cylinders, leftBehind, recovered } from "./moves.ts";
import { opened, plan } from "./plan.ts";
import { examined, round, weather } from "./rounds.ts";
import { atRest, evacuated, outing, type Story } from "./outings.ts";
import { harbourTruth } from "./truth.ts";

const C = 273.15;

/**
 * A whole invented trial: a harbour van, and three cans against R134a. Readings come from
 * `harbourTruth` through the vehicle model with parameters of its own, biases and noise; the same
 * log every time. People, places and products are made up.
 */
export function harbour(): readonly TrialEvent[] {
  const log = new InventedLog(opened);
  const story: Story = { log, things: plan(log), random: createRandom(41) };
  const cylinders = new Cylinders();
  const { r1, x1, x2, x3 } = story.things;
  cylinders.start(r1, 6.74 + 3.2);
  cylinders.start(x1, 6.8);
  cylinders.start(x2, 6.76);
  cylinders.start(x3, 6.82);
  prove(story);
  cans(story);
  const heron = round(story, {
    can: "heron",
    name: "Heron",
    day: "2026-08-06",
    cylinder: r1,
    inside: harbourTruth.found,
    cylinders,
    weathers: [weather(27.4, 0.52), weather(31.8, 0.43)],
    si: true,
    mistyped: 212,
    second: 0.264,
  });
  const kestrel = round(story, {
    can: "kestrel",
    name: "Kestrel",
    day: "2026-08-08",
    cylinder: x1,
    inside: heron,
    cylinders,
    weathers: [weather(25.6, 0.55), weather(29.7, 0.47)],
    leaks: true,
    roadByHand: true,
  });
  const magpie = round(story, {
    can: "magpie",
    name: "Magpie",
    day: "2026-08-10",
    cylinder: x2,
    inside: kestrel,
    cylinders,
    weathers: [weather(28.8, 0.5), weather(33.1, 0.4)],
    second: 0.263,
  });
  restore(story, cylinders, magpie, x3);
  return log.events;
}

function prove(story: Story): void {
  const where = { stage: "prove" } as const;
  const same = {
    composition: harbourTruth.label,
    charge: harbourTruth.found,
    charged: r134a,
  };
  atRest(story, where, "2026-08-04T05:10:00Z", same, C + 18.3);
  const days = [
    ["2026-08-04", weather(26.2, 0.54), weather(30.9, 0.45)],
    ["2026-08-05", weather(28.1, 0.49), weather(32.4, 0.41)],
  ] as const;
  for (const [day, morning, afternoon] of days) {
    const label = day.endsWith("04") ? "first day" : "second day";
    outing(story, where, {
      ...same,
      name: `Label refrigerant, ${label}, morning`,
      at: `${day}T10:10:00Z`,
      begins: `${day}T11:30:00`,
      weather: morning,
    });
    outing(story, where, {
      ...same,
      name: `Label refrigerant, ${label}, afternoon`,
      at: `${day}T14:10:00Z`,
      begins: `${day}T15:30:00`,
      weather: afternoon,
    });
  }
}

/** Full cans on the bench, two days before the first is used. */
function cans(story: Story): void {
  const parts = (...all: readonly (readonly [string, number])[]) => ({
    method: "identifier" as const,
    parts: all.map(([substance, percent]) => ({ substance, percent })),
  });
  examined(story, "heron", "2026-08-05", parts(["R134a", 100]));
  examined(story, "kestrel", "2026-08-05", {
    method: "combustible-gas-detector",
    responded: true,
  });
  examined(story, "magpie", "2026-08-05", parts(["R134a", 75], ["R22", 25]));
}

function restore(story: Story, cylinders: Cylinders, inside: number, cylinder: string): void {
  const { log, things, random } = story;
  const where = { stage: "restore" } as const;
  const day = "2026-08-12";
  recovered(story, where, `${day}T07:20:00Z`, { cylinders, cylinder, inside });
  evacuated(story, where, day);
  read(log, `${day}T09:40:00Z`, where, "oil-returned", millilitres(9));
  const into = harbourTruth.labelCharge - leftBehind;
  const { before, after } = cylinders.move(things.r1, -into);
  log.add(`${day}T10:00:00Z`, "transfer-posted", {
    ...where,
    from: things.r1,
    to: "vehicle",
    sourceWeighing: {
      before: kg(onScale(before, random) / 1000),
      after: kg(onScale(after, random) / 1000),
      instrument: things.scale,
    },
    phase: "liquid",
    note: "Aimed at 0.600 kg.",
  });
  const runs = [
    ["morning", "10:50", "12:10", weather(27.0, 0.5)],
    ["afternoon", "14:10", "15:30", weather(31.2, 0.44)],
  ] as const;
  for (const [name, entered, begins, air] of runs) {
    outing(story, where, {
      name: `Label refrigerant again, ${name}`,
      at: `${day}T${entered}:00Z`,
      begins: `${day}T${begins}:00`,
      weather: air,
      composition: harbourTruth.label,
      charge: into,
      charged: r134a,
    });
  }
  log.add("2026-08-12T17:00:00Z", "item-confirmed", {
    ...where,
    item: "label-true",
    confirmed: true,
  });
}
