import { describe, expect, test } from "vitest";
import demonstration from "../../../data/demonstration/hill-town.json";
import { fromSI } from "../../units/index.ts";
import { judgeReading, parseExport, project, type ReadingInContext } from "../index.ts";

const parsed = parseExport(demonstration);
if (parsed.kind !== "export") throw new RangeError("the demonstration does not parse");
const view = project(parsed.events);
const lowGauge = view.instruments.find(({ name }) => /low/i.test(name))?.id;
const product = view.products[0]?.id;

const typed = (
  quantity: ReadingInContext["quantity"],
  value: number,
  unit: string,
  more: Partial<ReadingInContext> = {},
) =>
  judgeReading(view, {
    quantity,
    form: "steady",
    typed: { value, unit },
    stage: "prove",
    ...(lowGauge !== undefined && { instrument: lowGauge }),
    ...more,
  });

describe("static pressure in Prove, metal at 20.1 °C", () => {
  test("the expected value is the maker's table within 0.1 bar", () => {
    // Maker's manual: 4.7 bar gauge at 20 °C; 0.016 bar for the tenth of a kelvin (data/facts/static-pressure.json).
    const expected = typed("static-low", 69, "psig")?.band?.expected ?? NaN;
    expect(fromSI(expected, "bar(g)", view.atmosphere.value)).toBeGreaterThan(4.6);
    // The table is for sea level; at 640 m the gauge counts from air 7.4 kPa thinner.
    expect(fromSI(expected, "bar(g)", 101325)).toBeCloseTo(4.72, 1);
  });

  test("agreement, air and shortage read as within, higher and lower", () => {
    expect(typed("static-low", 69, "psig")?.kind).toBe("within");
    expect(typed("static-low", 85, "psig")?.kind).toBe("higher");
    expect(typed("static-low", 40, "psig")?.kind).toBe("lower");
  });

  test("it says that static pressure does not measure the charge", () => {
    const headings = typed("static-low", 69, "psig")?.details.map(({ heading }) => heading);
    expect(headings).toContain("Static pressure does not measure the charge");
  });

  test("outside of the band without a gauge named is undecided, not a fault", () => {
    const unnamed: ReadingInContext = {
      quantity: "static-low",
      form: "steady",
      typed: { value: 85, unit: "psig" },
      stage: "prove",
    };
    expect(judgeReading(view, unnamed)).toMatchObject({
      kind: "undecided",
      word: "name the gauge",
    });
  });

  test("before the vehicle or the product is written down it says which", () => {
    const pressure: ReadingInContext = {
      quantity: "static-low",
      form: "steady",
      typed: { value: 69, unit: "psig" },
      stage: "prove",
    };
    const empty = project([]);
    expect(judgeReading(empty, pressure)?.sentence).toMatch(/^Describe the vehicle first/u);
    expect(judgeReading(empty, { ...pressure, stage: "run" })?.sentence).toMatch(
      /^List the product first/u,
    );
  });

  test("a product that declares no fluid has no band", () => {
    const verdict = typed("static-low", 70, "psig", {
      stage: "run",
      ...(product !== undefined && { round: product }),
    });
    expect(verdict).toMatchObject({ kind: "undecided", word: "no fluid declared" });
    expect(verdict?.band).toBeUndefined();
  });
});

describe("a product that declares a named blend", () => {
  const declared = {
    ...view,
    products: view.products.map((each) => ({ ...each, fluid: "HC 50/40/10" })),
  };
  const run = view.runs.find(({ stage }) => stage === "run");
  const inRun = (quantity: "static-low" | "high-side", value: number) =>
    judgeReading(declared, {
      quantity,
      form: "steady",
      typed: { value, unit: "psig" },
      stage: "run",
      ...(lowGauge !== undefined && { instrument: lowGauge }),
      ...(product !== undefined && { round: product }),
      ...(quantity === "high-side" && run && { run: run.id }),
    });

  test("its static band runs from dew to bubble pressure", () => {
    // Facts of hydrocarbon blends, CoolProp 8.0.0: 41 to 66 psig at 20 °C and sea level; the metal is at 18.0 °C.
    expect(inRun("static-low", 52)?.kind).toBe("within");
    expect(inRun("static-low", 90)?.kind).toBe("higher");
    expect(inRun("static-low", 20)?.kind).toBe("lower");
    expect(inRun("static-low", 52)?.basis).toMatch(/Dew to bubble/);
  });

  test("its running band comes from the vehicle's model on that blend", () => {
    expect(inRun("high-side", 150)?.basis).toMatch(/HC 50\/40\/10/);
    expect(inRun("high-side", 150)?.band).toBeDefined();
    // What this round put in counts, though the vehicle has been recovered and restored since.
    expect(inRun("high-side", 150)?.details[0]?.text).toMatch(/holding 211/);
  });

  test("before anything of it was weighed in there is no forecast", () => {
    const empty = { ...declared, ledger: { ...declared.ledger, postings: [] } };
    const verdict = judgeReading(empty, {
      quantity: "high-side",
      form: "steady",
      typed: { value: 150, unit: "psig" },
      stage: "charge",
      ...(product !== undefined && { round: product }),
      ...(run && { run: run.id }),
    });
    expect(verdict?.band).toBeUndefined();
    expect(verdict?.details[0]?.text).toBe("Post the transfer into the vehicle first.");
  });
});

describe("vacuum at 24 °C", () => {
  const micronGauge = view.instruments.find(({ measures }) => measures === "vacuum")?.id;
  const pulled = (value: number, unit: string, instrument = micronGauge) =>
    typed("vacuum", value, unit, {
      stage: "evacuate",
      ...(instrument !== undefined && { instrument }),
    });

  test("the band ends where water boils", () => {
    // Water at 24 °C boils at 2.985 kPa (IAPWS-95, Wagner and Pruß 2002: 2.9858 kPa).
    expect(pulled(380, "micron")?.band?.to).toBeCloseTo(2985.8, -1);
    expect(pulled(380, "micron")?.kind).toBe("within");
    expect(pulled(40, "mbar")?.kind).toBe("higher");
  });

  test("a gauge that counts from the air cannot tell", () => {
    expect(pulled(27.7, "inHg(vac)", lowGauge)).toMatchObject({
      kind: "undecided",
      word: "gauge cannot tell",
    });
  });
});

describe("running pressures", () => {
  const restore = view.runs.filter(({ stage }) => stage === "restore");
  const onRestore = (seen: typeof view, condition: "parked-idle" | "road-steady") => {
    const run = restore.find((each) => each.condition === condition)?.id;
    return judgeReading(seen, {
      quantity: "high-side",
      form: "steady",
      typed: { value: condition === "parked-idle" ? 134 : 106, unit: "psig" },
      stage: "restore",
      ...(run !== undefined && { run }),
    });
  };
  /** The same trial while nobody has said how the vehicle meters and compresses. */
  const undescribed = view.vehicle && {
    ...view,
    vehicle: { ...view.vehicle, meteringDevice: "unknown", compressor: "unknown" } as const,
  };

  test("the vehicle's model gives the band, at idle and on the road", () => {
    for (const condition of ["parked-idle", "road-steady"] as const) {
      const verdict = onRestore(view, condition);
      expect(verdict).toMatchObject({ kind: "within", word: "as expected" });
      expect(verdict?.basis).toMatch(/not fitted to this one/);
    }
  });

  test("the published table stays in sight, marked as other vehicles'", () => {
    const headings = onRestore(view, "parked-idle")?.details.map(({ heading }) => heading);
    expect(headings).toContain("Published R134a table of other vehicles");
  });

  test("without a described vehicle the table is all there is, and only at idle", () => {
    if (!undescribed) throw new RangeError("no vehicle");
    expect(onRestore(undescribed, "parked-idle")?.basis).toMatch(/other vehicles/);
    const road = onRestore(undescribed, "road-steady");
    expect(road).toMatchObject({ kind: "undecided", word: "no published band" });
  });

  test("a weak high side is seen: 60 psig at idle in such air", () => {
    const run = restore.find(({ condition }) => condition === "parked-idle")?.id;
    const verdict = typed("high-side", 60, "psig", {
      stage: "restore",
      ...(run !== undefined && { run }),
    });
    expect(verdict?.kind).toBe("lower");
  });

  test("one end of a cycling clutch is not judged as a steady pressure", () => {
    const verdict = typed("low-side", 22, "psig", { form: "lowest" });
    expect(verdict).toMatchObject({ kind: "undecided", word: "cycling" });
  });

  test("nothing is judged while refrigerant is being recovered", () => {
    expect(typed("low-side", -0.31, "bar(g)", { stage: "recover" })).toBeUndefined();
  });
});

test("every reading of the demonstration gets a finite verdict or none", () => {
  for (const reading of view.readings) {
    const verdict = judgeReading(view, reading);
    if (!verdict) continue;
    const numbers = [
      verdict.reading.value,
      verdict.reading.u,
      verdict.band?.from,
      verdict.band?.to,
    ];
    for (const number of numbers)
      expect(number === undefined || Number.isFinite(number)).toBe(true);
    expect(verdict.sentence).not.toMatch(/NaN|undefined|Infinity/);
  }
});
