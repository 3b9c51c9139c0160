import type { ContentsEvidence } from "../trial/index.ts";

type Evidence = ContentsEvidence["items"][number]["evidence"];

/** One piece of gathered evidence as `identify` takes it, SI. */
function itemOf(evidence: Evidence): Readonly<Record<string, unknown>> {
  switch (evidence.kind) {
    case "pressure": {
      const { kind, p, u, T, uT, vessel, gauge, thermometer } = evidence;
      return {
        kind,
        pressure: p,
        pressureU: u,
        temperature: T,
        temperatureU: uT,
        vessel,
        ...(gauge !== undefined && { gaugeName: gauge }),
        ...(thermometer !== undefined && { thermometerName: thermometer }),
      };
    }
    case "boiling": {
      const { kind, T, uT, p, thermometer } = evidence;
      return {
        kind,
        temperature: T,
        temperatureU: uT,
        pressure: p,
        ...(thermometer !== undefined && { thermometerName: thermometer }),
      };
    }
    case "fill": {
      const { kind, vessel, mass, uMass, volume, uVolume, full } = evidence;
      return { kind, vessel, mass, massU: uMass, volume, volumeU: uVolume, full };
    }
    case "liquid-density":
      return {
        kind: evidence.kind,
        density: evidence.rho,
        densityU: evidence.u,
        temperature: evidence.T,
      };
    case "identifier":
      return {
        kind: evidence.kind,
        parts: evidence.parts.map(({ substance, fraction }) => ({
          substance,
          percent: 100 * fraction,
        })),
        ...(evidence.u !== undefined && { percentU: 100 * evidence.u }),
      };
    case "detector":
    case "label":
      return { ...evidence };
  }
}

/** What a trial's log knows of a product, as the input of `identify`; undefined if it knows nothing at all. */
export function identifyInput({
  items,
}: ContentsEvidence): Readonly<Record<string, unknown>> | undefined {
  return items.length === 0
    ? undefined
    : { evidence: items.map(({ evidence }) => itemOf(evidence)) };
}
