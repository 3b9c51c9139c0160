// Two ways to the same steady state: Newton's method and nested one-dimensional searches share the
// circuit's equations and nothing else.
import { expect, test } from "vitest";
import { seededCases } from "../../test/vehicle/random-cases.ts";
import { bracketCircuit } from "./brackets.ts";
import { createCircuit } from "./circuit.ts";
import { guessesFor, startFrom } from "./guesses.ts";
import { createNewtonWork } from "./newton.ts";
import { propertyPack } from "./pack/build-pack.ts";
import { pureComposition } from "./pack/composition.ts";
import { systemFor } from "./run.ts";
import { solveSystem } from "./solve.ts";

const count = 40;
const budget = 200_000;

test(`Newton and brackets agree on ${count} random cases`, () => {
  const work = createNewtonWork();
  const bulb = propertyPack(pureComposition("R134a"));
  if (bulb.kind !== "pack") throw new Error(bulb.reason);
  let [compared, differing, lost] = [0, 0, 0];
  const notes: string[] = [];
  for (const [k, each] of seededCases(77, 3 * count).entries()) {
    if (compared === count) break;
    const outcome = propertyPack(each.composition);
    if (outcome.kind !== "pack") throw new Error(outcome.reason);
    // The brackets leave the return air where it is: both get one that is measured.
    const { ambient } = each.conditions;
    const returnAir = { kind: "measured", T: ambient - 3, humidity: 0.4 } as const;
    const sys = systemFor(
      {
        ...each,
        conditions: { ...each.conditions, returnAir },
        fill: { composition: each.composition, charge: each.charge, air: each.air },
      },
      outcome.pack,
      bulb.pack,
    );
    const { circuit, end } = solveSystem(sys, each.vehicle.values.labelCharge, work);
    if (end.kind !== "running" || end.by === "brackets") continue;
    compared++;
    const other = createCircuit(sys);
    const [first] = guessesFor(sys, each.vehicle.values.labelCharge);
    if (!first) throw new Error("no guess");
    startFrom(other, first);
    const found = bracketCircuit(other, Math.min(sys.trip - sys.pnc, sys.pack.pMax), budget);
    if (found !== "found") {
      lost++;
      notes.push(`case ${k}: brackets ${found}, ${circuit.regime}`);
      continue;
    }
    const off = Math.max(
      Math.abs(other.pc / circuit.pc - 1),
      Math.abs(other.ps / circuit.ps - 1),
      Math.abs(other.Tvent - circuit.Tvent) / 100,
    );
    if (!(off < 1e-4)) {
      differing++;
      notes.push(`case ${k}: ${off}, ${circuit.regime} and ${other.regime}`);
    }
  }
  expect(compared).toBe(count);
  // Both may be right where a starved system has several steady states; more than a few is a fault.
  expect(differing, notes.join("\n")).toBeLessThanOrEqual(1);
  expect(lost, notes.join("\n")).toBeLessThanOrEqual(2);
});
