import { describe, expect, test } from "vitest";
import { fluid, stateTP } from "../../fluids/index.ts";
import { saturationAtT } from "../../fluids/index.ts";
import { materialOf } from "../bulk/material.ts";
import { ratedBlends } from "../substances/named-blends.ts";
import { toMoles } from "../substances/composition.ts";
import { equilibriumFlux } from "./flashing-flux.ts";
import { type Hole, holeFlow } from "./hole-flow.ts";

const r134a = materialOf([{ fluid: "R134a", fraction: 1 }]);

/** K, found by the slope of saturation: saturated R134a at 1.6 MPa is 331.06 K (CoolProp 8.0.0). */
const SATURATED = 331.06;

// Homogeneous equilibrium, R134a at 1.6 MPa, by another library's equations (CoolProp 8.0.0), kg/(m2 s).
test.each([
  [1, 14_457],
  [5, 20_189],
  [10, 28_202],
])("liquid R134a at 1.6 MPa, %d K subcooled: %d kg/(m2 s)", (subcooling, expected) => {
  const state = stateTP(fluid("R134a"), SATURATED - subcooling, 1.6e6);
  if (state.kind !== "state") throw new Error("no state");
  const M = r134a.M;
  const flux = equilibriumFlux(r134a, { p: 1.6e6, h: state.h / M, s: state.s / M }, 101325);
  expect(Math.abs((flux ?? NaN) / expected - 1)).toBeLessThan(0.005);
});

test("thin vapour chokes as an ideal gas does", () => {
  // ṁ/A = p0 √(γM/(RT)) (2/(γ+1))^((γ+1)/(2(γ−1))), with cp and cv of the equation at 0.3 bar.
  const [T, p] = [300, 3e4];
  const state = stateTP(fluid("R290"), T, p);
  if (state.kind !== "state") throw new Error("no state");
  const { M } = fluid("R290").info;
  const gamma = (state.cp ?? NaN) / (state.cv ?? NaN);
  const ideal =
    p *
    Math.sqrt((gamma * M) / (8.314462618 * T)) *
    (2 / (gamma + 1)) ** ((gamma + 1) / (2 * (gamma - 1)));
  const propane = materialOf([{ fluid: "R290", fraction: 1 }]);
  const flux = equilibriumFlux(propane, { p, h: state.h / M, s: state.s / M }, 1e3);
  expect(Math.abs((flux ?? NaN) / ideal - 1)).toBeLessThan(0.005);
});

const hole: Hole = {
  T: 298.15,
  area: Math.PI * 0.0005 ** 2,
  dischargeCoefficient: 0.85,
  phase: "liquid",
  discharge: "bernoulli",
  outside: 101325,
  vesselVolume: 3e-3,
};
const flowOf = (material: typeof r134a, change: Partial<Hole> = {}) => {
  const found = holeFlow(material, { ...hole, ...change });
  if (found.kind !== "flow") throw new Error(JSON.stringify(found));
  return found.flow;
};

describe("a hole", () => {
  test("lets liquid out by Bernoulli: Cd A √(2ρΔp)", () => {
    const saturation = saturationAtT(fluid("R134a"), hole.T);
    if (saturation.kind !== "saturated") throw new Error("no saturation");
    // 1206.7 kg/m3 and 6.654 bar at 25 °C (CoolProp 8.0.0).
    const expected = 0.85 * hole.area * Math.sqrt(2 * 1206.7 * (6.654e5 - 101325));
    expect(Math.abs(flowOf(r134a).rate / expected - 1)).toBeLessThan(1e-3);
  });

  test("flashing liquid and vapour leave slower", () => {
    const whole = flowOf(r134a).rate;
    const flashing = flowOf(r134a, { discharge: "flashing" }).rate;
    const vapour = flowOf(r134a, { phase: "vapour" }).rate;
    expect(flashing).toBeLessThan(whole);
    expect(vapour).toBeLessThan(flashing);
    expect(vapour).toBe(flowOf(r134a).vapourRate);
  });

  test("keeps as much vapour as its volume holds: 97 g of R134a in 3 L at 25 °C", () => {
    // Threshold of any liquid in 3 L at 25 °C: R134a 97 g, R290 62 g (V times the density of saturated vapour).
    expect(Math.abs(flowOf(r134a).vapourFull - 0.097)).toBeLessThan(1e-3);
    const propane = materialOf([{ fluid: "R290", fraction: 1 }]);
    expect(Math.abs(flowOf(propane).vapourFull - 0.062)).toBeLessThan(1e-3);
  });

  test("works for blends, and for none above its critical point", () => {
    const blend = ratedBlends.find((one) => one.blend === "HC 60/40");
    const material = materialOf(toMoles(blend?.parts ?? []));
    const liquid = flowOf(material);
    expect(liquid.rate).toBeGreaterThan(liquid.vapourRate);
    expect(flowOf(material, { discharge: "flashing" }).rate).toBeGreaterThan(liquid.vapourRate);
    const carbonDioxide = materialOf([{ fluid: "R744", fraction: 1 }]);
    expect(holeFlow(carbonDioxide, { ...hole, T: 320 })).toMatchObject({
      kind: "failed",
      reason: "supercritical",
    });
  });

  test("of a liquid that does not boil at this pressure has no flow", () => {
    const butane = materialOf([{ fluid: "R600", fraction: 1 }]);
    expect(holeFlow(butane, { ...hole, T: 265 })).toMatchObject({ kind: "failed", quantity: "p" });
  });
});
