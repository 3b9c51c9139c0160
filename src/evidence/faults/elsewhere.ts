import type { Conditions } from "../../vehicle/index.ts";
import type { System } from "./moments.ts";

/** Runs in which a further reading may be taken. */
export type Elsewhere = "raised-idle" | "idle" | "road" | "warmer-day";

/** Other runs that are worth a thought after those that were made, the sound vehicle in them; rev/s, m/s and K (choices). */
export function elsewhere(
  systems: readonly System[],
): readonly { readonly where: Elsewhere; readonly system: System }[] {
  const last = systemAt(systems, systems.length - 1);
  const here = last.faulty.request.conditions;
  const made = systems.map(({ faulty }) => faulty.request.conditions);
  const none = (like: (one: Conditions) => boolean): boolean => !made.some(like);
  const cabin = (share: number): Conditions["returnAir"] => ({ kind: "pull-down", share });
  const parked = { ...here, speed: 0, returnAir: cabin(0.45) };
  const warmer = { ...here, ambient: here.ambient + 8 };
  const runs: readonly (readonly [boolean, Elsewhere, Conditions])[] = [
    [
      none(({ speed, engineSpeed }) => speed < 1 && engineSpeed >= 20),
      "raised-idle",
      { ...parked, engineSpeed: 25, ...(here.speed < 1 && { returnAir: here.returnAir }) },
    ],
    [
      none(({ speed, engineSpeed }) => speed < 1 && engineSpeed < 20),
      "idle",
      { ...parked, engineSpeed: 12 },
    ],
    [
      none(({ speed }) => speed >= 10),
      "road",
      { ...here, speed: 20, engineSpeed: 30, returnAir: cabin(0.9) },
    ],
    [
      none(({ ambient }) => ambient >= 303),
      "warmer-day",
      { ...warmer, returnAir: warmerCabin(here) },
    ],
  ];
  return runs
    .filter(([fits]) => fits)
    .map(([, where, conditions]) => ({ where, system: inConditions(last, conditions) }));
}

const inConditions = ({ faulty, reader }: System, conditions: Conditions): System => ({
  faulty: { ...faulty, request: { ...faulty.request, conditions } },
  reader,
});

function warmerCabin({ returnAir, speed }: Conditions): Conditions["returnAir"] {
  return returnAir.kind === "measured"
    ? { kind: "pull-down", share: speed > 1 ? 0.9 : 0.45 }
    : returnAir;
}

export function systemAt(systems: readonly System[], run: number): System {
  const system = systems[run];
  if (!system) throw new RangeError(`there is no run ${run}`);
  return system;
}
