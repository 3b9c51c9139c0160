import { normal, type Random } from "../../numerics/index.ts";
import type { Conditions } from "../../vehicle/index.ts";
import type { ComparableRun, ConditionUncertainty } from "./comparable.ts";

type Draw = Readonly<Record<keyof ConditionUncertainty, number>>;

const drawAll = (random: Random): Draw => ({
  ambient: normal(random),
  humidity: normal(random),
  speed: normal(random),
  engineSpeed: normal(random),
  returnT: normal(random),
  returnHumidity: normal(random),
  pullDown: normal(random),
});

const share = (value: number): number => Math.min(1, Math.max(0.02, value));

function moved({ conditions, u }: ComparableRun, common: Draw, own: Draw): Conditions {
  const by = (key: keyof Draw): number => u[key] * Math.SQRT1_2 * (common[key] + own[key]);
  const { returnAir } = conditions;
  return {
    ...conditions,
    ambient: conditions.ambient + by("ambient"),
    humidity: share(conditions.humidity + by("humidity")),
    speed: conditions.speed > 0 ? Math.max(0, conditions.speed + by("speed")) : 0,
    engineSpeed: Math.max(8, conditions.engineSpeed + by("engineSpeed")),
    returnAir:
      returnAir.kind === "pull-down"
        ? { kind: "pull-down", share: share(returnAir.share + by("pullDown")) }
        : {
            kind: "measured",
            T: returnAir.T + by("returnT"),
            ...(returnAir.humidity !== undefined && {
              humidity: share(returnAir.humidity + by("returnHumidity")),
            }),
          },
  };
}

/** Conditions that the runs may really have had: half of each error is common to all, as of one thermometer. */
export function drawConditions(runs: readonly ComparableRun[], random: Random): Conditions[] {
  const common = drawAll(random);
  return runs.map((run) => moved(run, common, drawAll(random)));
}
