import type { Conditions } from "../../vehicle/index.ts";

/** Conditions of a run as calculations take them, SI. */
export function conditionsInput(conditions: Conditions): Readonly<Record<string, unknown>> {
  const { ambient, humidity, speed, engineSpeed, blower, recirculation, returnAir } = conditions;
  return {
    ...{ ambient, humidity, speed, engineSpeed, blower, recirculation },
    ...(returnAir.kind === "measured"
      ? {
          returnAir: {
            T: returnAir.T,
            ...(returnAir.humidity !== undefined && { humidity: returnAir.humidity }),
          },
        }
      : { pulldown: returnAir.share }),
  };
}
