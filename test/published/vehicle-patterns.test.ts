// Published and known behaviour of vehicle systems. A pattern that the model misses carries its reason and is
// held to be missed: when it is met one day, the reason goes. Nothing is tuned to these.
import { describe, expect, test } from "vitest";
import type { PresetName } from "../../src/vehicle/index.ts";
import { presetNames, presetVehicle, runVehicle } from "../../src/vehicle/index.ts";
import {
  celsius,
  conditions,
  type FluidName,
  PSI,
  psig,
  runs,
  scenario,
  tableConditions,
} from "../vehicle/scenario.ts";

interface Pattern {
  readonly name: string;
  readonly source: string;
  readonly value: number;
  readonly from: number;
  readonly to: number;
  readonly missed?: string;
}

function hold({ value, from, to, missed }: Pattern): void {
  const met = value >= from && value <= to;
  const says = `${value.toPrecision(5)} for ${from} to ${to}`;
  if (missed === undefined) expect(met, says).toBe(true);
  else expect(met, `${says}: listed as missed (${missed})`).toBe(false);
}

const between = (value: number, tolerance: number) => ({
  from: value - tolerance,
  to: value + tolerance,
});

const kPaGauge = (p: number): number => (p - 101325) / 1000;

/** The maker's idle table: windows open, recirculation, fan at maximum, RH 50 to 70 %. */
function makersRun(preset: PresetName, ambient: number) {
  const rpm = preset === "large-orifice" ? 700 : 800;
  const around = conditions({ celsius: ambient, humidity: 0.6, rpm, share: 0.1 });
  return runs(scenario({ preset, fluid: "R134a", charge: 1, conditions: around }));
}

describe("maker's idle table of R134a, ± 100 kPa high and ± 30 kPa low", () => {
  const source = "Vehicle maker's service manual (2010 coupe, R134a), data/facts/operating-r134a.json";
  const table = [
    { ambient: 25, high: [1204, 1471], low: [171, 209] },
    { ambient: 30, high: [1300, 1590], low: [196, 240] },
    { ambient: 35, high: [1500, 1820], low: [229, 280] },
    { ambient: 40, high: [1870, 2285], low: [292, 357] },
  ] as const;
  const mild =
    "a light load at 25 °C: the fixed fan flow is generous, and heads of small systems are low";
  const small =
    "a fixed compressor of this size with a wide valve holds a higher suction than the maker's variable one";
  const missed: Readonly<Record<string, string>> = {
    "large-orifice 35 low": small,
    "midsize-expansion 25 high": mild,
    "compact-expansion 25 high": mild,
    "compact-expansion 35 low": small,
    "compact-expansion 40 low": small,
  };
  for (const preset of presetNames) {
    for (const { ambient, high, low } of table) {
      for (const side of ["high", "low"] as const) {
        const name = `${preset} ${ambient} ${side}`;
        test(name, () => {
          const run = makersRun(preset, ambient);
          const [from, to] = side === "high" ? high : low;
          const room = side === "high" ? 100 : 30;
          hold({
            name,
            source,
            value: kPaGauge(run[side]),
            from: from - room,
            to: to + room,
            ...(missed[name] !== undefined && { missed: missed[name] }),
          });
        });
      }
    }
  }
});

test("clutch cycling between published switch settings: opens 152 to 175, closes 276 to 324 kPa", () => {
  const run = runs(
    scenario({
      preset: "large-orifice",
      fluid: "R134a",
      charge: 1,
      conditions: tableConditions.r27,
    }),
  );
  const { from, to } = run.lowRange ?? { from: 0, to: 0 };
  const source = "vehicle makers' texts, data/facts/operating-r134a.json";
  hold({ name: "opens", source, value: kPaGauge(from), from: 152, to: 175 });
  hold({ name: "closes", source, value: kPaGauge(to), from: 276, to: 324 });
});

describe("R12 to R134a on the same hardware", () => {
  const source = "maker's retrofit bulletin of 1991: head up to +294 kPa, vent up to 2 °C warmer";
  for (const preset of presetNames) {
    test.each([20, 27, 35])(`${preset} %d °C`, (ambient) => {
      const around = conditions({ celsius: ambient, humidity: 0.5, rpm: 800, share: 0.45 });
      const base = scenario({ preset, fluid: "R134a", charge: 1, conditions: around });
      const after = runs(base);
      const r12 = { ids: ["R12"], fractions: [1] } as const;
      const charge = 1.1 * base.vehicle.values.labelCharge;
      const before = runs({ ...base, fill: { ...base.fill, composition: r12, charge } });
      const head = (after.high - before.high) / 1000;
      hold({ name: "head, kPa", source, value: head, from: 0, to: 294 + 50 });
      hold({ name: "vent, K", source, value: after.vent - before.vent, from: -1, to: 2 + 1 });
      hold({ name: "low, kPa", source, value: (after.low - before.low) / 1000, from: -30, to: 30 });
    });
  }
});

/** Change of a product against R134a at the same conditions: relative, K. */
function against(preset: PresetName, fluid: FluidName, charge: number, at = tableConditions.d35) {
  const base = runs(scenario({ preset, fluid: "R134a", charge: 1, conditions: at }));
  const other = runs(scenario({ preset, fluid, charge, conditions: at }));
  return {
    capacity: 100 * (other.capacity / base.capacity - 1),
    cop: 100 * (other.cop / base.cop - 1),
    power: 100 * (other.power / base.power - 1),
    discharge: other.discharge - base.discharge,
    head: (other.high - base.high) / PSI,
  };
}

describe("drop-in products at 35 °C, full duty", () => {
  for (const preset of presetNames) {
    test(`R1234yf in ${preset}`, () => {
      // The orifice-tube preset needs more of it: 1.1 times the R134a mass.
      const change = against(preset, "R1234yf", preset === "large-orifice" ? 1.1 : 1);
      const cho = "Cho 2013 (from memory), without internal heat exchanger: -7 %, -4.5 %";
      hold({ name: "capacity", source: cho, value: change.capacity, ...between(-7, 4) });
      hold({ name: "COP", source: cho, value: change.cop, ...between(-4.5, 4) });
      hold({
        name: "discharge",
        source: "Lee and Jung 2012: -6.5 K",
        value: change.discharge,
        ...between(-6.5, 4),
      });
      const bench = "Lee and Jung 2012, compressor bench: capacity 0.96 to 1.00 of R134a, ± 3 %";
      hold({
        name: "capacity on a bench",
        source: bench,
        value: change.capacity,
        from: -7,
        to: 3,
        ...(preset !== "large-orifice" && {
          missed: "the bulb of the R134a valve raises superheat, which the bench re-set",
        }),
      });
    });

    test(`R152a at 75 % in ${preset}`, () => {
      const change = against(preset, "R152a", 0.75);
      const source = "Wei and Teng, 75 % of R134a mass: power -5.96 %, EER +11.26 %, ± 6 %";
      hold({ name: "power", source, value: change.power, ...between(-5.96, 6) });
      hold({ name: "EER", source, value: change.cop, ...between(11.26, 6) });
      const sign = "discharge hotter, +13 K in an ideal cycle (computed)";
      hold({ name: "discharge", source: sign, value: change.discharge, from: 1, to: 18 });
    });

    test(`R290/R600a 50/50 at half the mass in ${preset}, 1000 rpm, mean of 30 and 40 °C`, () => {
      const changes = [30, 40].map((ambient) =>
        against(
          preset,
          "HC50",
          0.5,
          conditions({ celsius: ambient, humidity: 0.4, rpm: 1000, share: 0 }),
        ),
      );
      const mean = (pick: (change: (typeof changes)[number]) => number): number =>
        changes.reduce((sum, change) => sum + pick(change), 0) / changes.length;
      const source =
        "Thermal Science 2017: COP +5 %, power -5 %, ± 5 %; discharge -8 to -10 K, ± 4 K";
      hold({ name: "COP", source, value: mean(({ cop }) => cop), ...between(5, 5) });
      hold({ name: "power", source, value: mean(({ power }) => power), ...between(-5, 5) });
      hold({ name: "discharge", source, value: mean((c) => c.discharge), from: -14, to: -4 });
    });

    test(`R290/R600a 50/50 in ${preset} at 50 °C`, () => {
      const at = conditions({ celsius: 50, humidity: 0.4, rpm: 1000, share: 0 });
      hold({
        name: "COP",
        source: "Thermal Science 2017: COP +5 %, ± 5 %, 30 to 50 °C",
        value: against(preset, "HC50", 0.5, at).cop,
        ...between(5, 5),
        missed: "too favourable in the heat: no penalty for condensing a zeotrope, R134a near its limit",
      });
    });

    test(`R290 in ${preset}: more capacity, much more head`, () => {
      const change = against(preset, "R290", 0.4);
      const source = "computed cycle: capacity by volume 1.315 of R134a, pressure ratio 3.11";
      hold({ name: "capacity", source, value: change.capacity, from: 3, to: 25 });
      hold({ name: "head, psi", source, value: change.head, from: 50, to: 110 });
    });
  }

  test("R1234yf in an orifice tube at 90 % of the mass", () => {
    hold({
      name: "capacity",
      source: "Lee and Jung 2012: charge -10 % at 0.96 to 1.00 of the capacity, ± 3 %",
      value: against("large-orifice", "R1234yf", 0.9).capacity,
      from: -7,
      to: 3,
      missed: "R1234yf is less subcooled and starves the orifice; other retrofits used 110 %",
    });
  });

  test("R1234yf at 110 % at 1800 rpm", () => {
    const at = conditions({ celsius: 35, humidity: 0.4, rpm: 1800, share: 0 });
    hold({
      name: "power",
      source: "Wei and Teng: power -5 %, EER +1.45 %, ± 5 %",
      value: against("large-orifice", "R1234yf", 1.1, at).power,
      ...between(-5, 5),
      missed: "the clutch cycles here: duty, not the fluid, sets power",
    });
  });

  test("R134a/R600a 80/20", () => {
    const base = scenario({
      preset: "midsize-expansion",
      fluid: "R134a",
      charge: 1,
      conditions: tableConditions.d35,
    });
    const blend = { ids: ["R134a", "R600a"], fractions: [0.8, 0.2] } as const;
    const charge = 0.9 * base.fill.charge;
    const other = runs({ ...base, fill: { ...base.fill, composition: blend, charge } });
    hold({
      name: "COP over R134a",
      source: "Kim and others 1994: capacity and COP above R134a (sign)",
      value: other.cop / runs(base).cop,
      from: 1,
      to: 1.2,
      missed: "at equal swept volume its higher pressure loads the condenser; the bulb does not suit it",
    });
  });
});

describe("charge", () => {
  test.each(["midsize-expansion", "compact-expansion"] as const)(
    "%s: a plateau from 90 to 110 % of the label",
    (preset) => {
      const at = conditions({ celsius: 33, humidity: 0.45, rpm: 700, share: 0.45 });
      const run = (charge: number) =>
        runs(scenario({ preset, fluid: "R134a", charge, conditions: at }));
      expect(Math.abs(run(0.9).vent - run(1.1).vent)).toBeLessThan(0.1);
      expect(Math.abs(run(0.9).high - run(1.1).high)).toBeLessThan(PSI);
    },
  );

  const source = "trade test, orifice tube, idle at 33 °C, 25 % short: head -2 psi, vent +0.6 °F";
  const at = conditions({ celsius: 33, humidity: 0.45, rpm: 700, share: 0.45 });
  const short = (scale: number) => {
    const preset = presetVehicle("large-orifice");
    const values = Object.fromEntries(
      Object.entries(preset.values).map(([name, value]) => [
        name,
        name.endsWith("Volume") ? value * scale : value,
      ]),
    ) as typeof preset.values;
    const full = {
      ...scenario({ preset: "large-orifice", fluid: "R134a", charge: 1, conditions: at }),
      vehicle: { ...preset, values },
    };
    const fill = { ...full.fill, charge: 0.75 * full.fill.charge };
    const [whole, less] = [runs(full), runs({ ...full, fill })];
    return { head: (less.high - whole.high) / PSI, vent: less.vent - whole.vent };
  };

  test("25 % short in an orifice tube: little", () => {
    const { head, vent } = short(1);
    const missed = "the preset's volumes leave 7 % of the label in the accumulator there";
    hold({ name: "head, psi", source, value: head, ...between(-2, 5), missed });
    hold({ name: "vent, K", source, value: vent, ...between(0.3, 1), missed });
  });

  test("25 % short in an orifice tube with volumes at the low end of their range: little", () => {
    const { head, vent } = short(0.8);
    hold({ name: "head, psi", source, value: head, ...between(-2, 5) });
    hold({ name: "vent, K", source, value: vent, ...between(0.3, 1) });
  });

  test("a third of the mass of a 67/33 hydrocarbon blend balances a mid-size system", () => {
    const base = scenario({
      preset: "midsize-expansion",
      fluid: "R134a",
      charge: 0.4,
      conditions: tableConditions.i27,
    });
    const composition = { ids: ["R290", "R600a"], fractions: [0.67, 0.33] } as const;
    // Report on hydrocarbons in car systems: 300 g for a mid-size car, 40 % of the label mass, ± 6 %.
    const run = runs({ ...base, fill: { ...base.fill, composition } });
    expect(run.regime).toBe("balanced");
  });
});

describe("faults, idle at 30 °C: signs and sizes of the prototype, × 4 of its tolerances", () => {
  const at = conditions({ celsius: 30, humidity: 0.45, rpm: 700, share: 0.5 });
  const change = (preset: PresetName, fault: Partial<Parameters<typeof scenario>[0]>) => {
    const base = { preset, fluid: "R134a", charge: 1, conditions: at } as const;
    const [sound, faulty] = [runs(scenario(base)), runs(scenario({ ...base, ...fault }))];
    return {
      high: psig(faulty.high) - psig(sound.high),
      low: psig(faulty.low) - psig(sound.low),
      vent: celsius(faulty.vent) - celsius(sound.vent),
      cop: 100 * (faulty.cop / sound.cop - 1),
    };
  };
  const source = "prototype of the same formulation";
  const check = (value: number, expected: number, room: number): void => {
    hold({ name: "", source, value, ...between(expected, room) });
  };

  test("undercharge to 0.7 and 0.4", () => {
    check(change("large-orifice", { charge: 0.7 }).high, -25, 16);
    check(change("midsize-expansion", { charge: 0.7 }).high, -5, 16);
    check(change("large-orifice", { charge: 0.4 }).vent, 15, 3);
    check(change("midsize-expansion", { charge: 0.4 }).vent, 2.4, 1.6);
  });
  test("overcharge to 1.5 and 1.7 with a valve; an orifice tube feels little", () => {
    check(change("midsize-expansion", { charge: 1.5 }).high, 41, 16);
    expect(change("midsize-expansion", { charge: 1.7 }).high).toBeGreaterThan(100);
    check(change("large-orifice", { charge: 1.7 }).high, 10, 16);
  });
  test("air left in, 0.3 of an atmosphere", () => {
    const air = 0.3 * 101325;
    check(change("large-orifice", { air }).high, 29, 16);
    check(change("midsize-expansion", { air }).high, 34, 16);
    check(change("large-orifice", { air }).cop, -14, 12);
  });
  test("blocked condenser", () => {
    check(change("large-orifice", { faults: { blockedCondenser: 0.6 } }).high, 38, 16);
    check(change("midsize-expansion", { faults: { blockedCondenser: 0.6 } }).high, 46, 16);
  });
  test("weak compressor", () => {
    const large = change("large-orifice", { faults: { weakCompressor: 0.6 } });
    check(large.low, 9, 4);
    check(large.high, -16, 16);
    check(large.vent, 4, 1.6);
  });
  test("wrong fluid: R600a rests too low to start in cool weather", () => {
    const cool = conditions({ celsius: 15, humidity: 0.5, rpm: 800, share: 0.45 });
    const run = runVehicle(
      scenario({ preset: "large-orifice", fluid: "R600a", charge: 0.4, conditions: cool }),
    );
    expect(run).toMatchObject({ kind: "stopped", reason: "resting-pressure-too-low" });
  });
});
