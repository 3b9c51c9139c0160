import type { BodyOf } from "../../events.ts";
import { g, micron, millilitres, read } from "../hill-town-entries.ts";
import { byEye, siDialect, usDialect } from "./logger.ts";
import { type Cylinders, leftBehind, poured, recovered } from "./moves.ts";
import { atRest, evacuated, hold, leaking, outing, type Story, type Where } from "./outings.ts";
import { pressureAtRest, type Weather } from "./system.ts";
import { type HiddenCan, harbourTruth } from "./truth.ts";

const C = 273.15;
export const weather = (celsius: number, humidity: number): Weather => ({
  ambient: celsius + C,
  humidity,
});

type Can = "heron" | "kestrel" | "magpie";
interface Round {
  readonly can: Can;
  readonly name: string;
  readonly day: string;
  /** Where the vehicle's contents before this round go, and how much there is, kg. */
  readonly cylinder: string;
  readonly inside: number;
  readonly cylinders: Cylinders;
  readonly weathers: readonly [Weather, Weather];
  readonly si?: boolean;
  readonly leaks?: boolean;
  readonly mistyped?: number;
  /** How much of the second can goes in, kg of its contents; none when it stays sealed. */
  readonly second?: number;
  readonly roadByHand?: boolean;
}

/** One product from Recover to Identify; gives what is in the vehicle at its end, kg. */
export function round(story: Story, plan: Round): number {
  const product = story.things[plan.can];
  const at = (stage: Where["stage"]): Where => ({ stage, round: product });
  const hidden: HiddenCan = harbourTruth.cans[plan.can];
  recovered(story, at("recover"), `${plan.day}T07:20:00Z`, plan);
  if (plan.leaks === true) leakFound(story, at("evacuate"), plan.day);
  evacuated(story, at("evacuate"), plan.day);
  const inside = charged(story, at("charge"), plan, hidden) + leftBehind;
  const both = { composition: hidden.composition, charge: inside };
  const content = { kind: "product", product } as const;
  const dialect = plan.si === true ? siDialect : usDialect;
  const outingOf = (n: 0 | 1, hour: string) => ({
    ...both,
    name: `${plan.name}, ${n === 0 ? "morning" : "afternoon"}`,
    at: `${plan.day}T${hour}:50:00Z`,
    begins: `${plan.day}T${String(Number(hour) + 1)}:20:00`,
    weather: plan.weathers[n],
    charged: content,
    dialect,
  });
  outing(story, at("run"), outingOf(0, "11"));
  outing(story, at("run"), {
    ...outingOf(1, "14"),
    ...(plan.roadByHand === true && { roadByHand: true }),
  });
  atRest(story, at("run"), `${plan.day}T20:40:00Z`, both, C + 19.4);
  return inside;
}

/** The first hold rises on and on: a valve core; it is replaced and the system evacuated again. */
function leakFound(story: Story, where: Where, day: string): void {
  const { log, things } = story;
  const first = `${day}T07:50:00Z`;
  read(log, first, where, "vacuum", micron(340), things.vacuumGauge);
  hold(story, where, `${day}T08:20:00Z`, `hold-${day}-first.csv`, leaking);
  log.add(`${day}T08:25:00Z`, "note-written", {
    ...where,
    text: "The hold rises on without levelling: leak at the low-side service valve core. Core replaced, evacuated again.",
  });
}

function charged(story: Story, where: Where, plan: Round, hidden: HiddenCan): number {
  const { log, things } = story;
  const { day } = plan;
  read(log, `${day}T09:40:00Z`, where, "oil-returned", millilitres(9));
  const first = plan.can === "kestrel" ? things.kestrel1 : things[`${plan.can}1`];
  const [mass1, mass2] = hidden.masses;
  // What stays in an emptied can is its vapour.
  const rest = plan.can === "kestrel" ? 0.0022 : 0.0041;
  let total = poured(story, where, `${day}T10:00:00Z`, {
    can: first,
    full: hidden.tare + mass1,
    empty: hidden.tare + rest,
    ...(plan.mistyped !== undefined && { mistyped: plan.mistyped }),
  });
  emptied(story, where, `${day}T10:40:00Z`, first, hidden);
  if (plan.second !== undefined) {
    total += poured(story, where, `${day}T10:20:00Z`, {
      can: things[`${plan.can}2`],
      full: hidden.tare + mass2,
      empty: hidden.tare + mass2 - plan.second,
    });
  }
  return total;
}

function emptied(story: Story, where: Where, at: string, can: string, { volume }: HiddenCan): void {
  const { log } = story;
  const millilitresIn = Math.round((volume * 1e6) / 5) * 5;
  read(log, at, { ...where, vessel: can }, "can-volume", millilitres(millilitresIn));
  log.add(at, "vessel-found-empty", {
    ...where,
    vessel: can,
    evidence: "Nothing flows any more; filled with water afterwards to measure its volume.",
  });
}

/** What the shop's instruments say about a full can, before it is used. */
export function examined(
  { log, things }: Story,
  can: Can,
  day: string,
  test: Pick<BodyOf<"sample-tested">, "method" | "responded" | "parts">,
): void {
  const where = { stage: "identify", round: things[can] } as const;
  const vessel = things[`${can}2`];
  const { composition, tare, masses, volume } = harbourTruth.cans[can];
  const morning = [`${day}T06:10:00Z`, C + 17.2] as const;
  const noon = [`${day}T12:30:00Z`, C + 28.6] as const;
  for (const [at, T] of [morning, noon]) {
    const p = pressureAtRest(composition, T, masses[1] / volume) + harbourTruth.bias.high * 0.3;
    const shown = { value: byEye(p, "psig", 0.5), unit: "psig" };
    read(log, at, { ...where, vessel }, "vessel-pressure", shown, things.lowGauge);
    const wall = { value: byEye(T + harbourTruth.bias.temperature, "°C", 0.1), unit: "°C" };
    read(log, at, { ...where, vessel }, "vessel-temperature", wall, things.thermometer);
  }
  const gross = g(Math.round(((tare + masses[1]) * 1000) / 2) * 2);
  read(log, morning[0], { ...where, vessel }, "gross-mass", gross, things.scale);
  log.add(`${day}T06:30:00Z`, "sample-tested", {
    ...where,
    ...test,
    vessel,
    ...(test.method === "identifier" && { instrument: things.identifier }),
  });
}
