import { z } from "zod";
import { pumpDown } from "../service/index.ts";
import { invalidInput, issue, type Issue } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { type Field, optional, pressure, quantity } from "./field.ts";

const amount = z.union([z.number(), z.string().max(80)]);
const limit = z.enum(["pump", "hose", "water"]);

const record = <K extends string>(
  says: string,
  parts: Readonly<Record<K, { readonly field: Field<number>; readonly says: string }>>,
): Field<Record<K, number>> => {
  const keys = Object.keys(parts) as K[];
  const shape = Object.fromEntries(keys.map((key) => [key, amount.describe(parts[key].says)]));
  return {
    schema: z.strictObject(shape).describe(says),
    required: true,
    read(raw, name, air) {
      const given = raw as Record<K, unknown>;
      const read = keys.map(
        (key) => [key, parts[key].field.read(given[key], `${name}.${key}`, air)] as const,
      );
      const issues = read.flatMap(([, one]): readonly Issue[] =>
        one.kind === "unusable" ? one.issues : [],
      );
      if (issues.length > 0) return { kind: "unusable", issues };
      const values = read.map(([key, one]) => [key, one.kind === "value" ? one.value : 0]);
      return { kind: "value", value: Object.fromEntries(values) as Record<K, number> };
    },
  };
};

const absolute: Field<number> = {
  ...pressure("Pressure"),
  read(raw, name, air) {
    const found = pressure("Pressure").read(raw, name, air);
    return found.kind === "value" ? { kind: "value", value: found.value.p } : found;
  },
};

const pump = record("The pump: {flow, ultimate}", {
  flow: {
    field: quantity("volume", "Volume moved in a minute", { from: 1e-4, to: 10 }),
    says: 'Free air moved in one minute, a volume: m3, or text such as "142 L" or "5 ft3"',
  },
  ultimate: {
    field: absolute,
    says: 'Deepest pressure at its own inlet: Pa absolute, or text such as "20 micron"',
  },
});

const hose = record("A hose: {bore, length}", {
  bore: {
    field: quantity("length", "Bore", { from: 5e-4, to: 0.1 }),
    says: 'Bore inside: m, or text such as "4.8 mm"',
  },
  length: {
    field: quantity("length", "Length", { from: 0.01, to: 30 }),
    says: "Length: m, or text",
  },
});

const hoses: Field<readonly Record<"bore" | "length", number>[]> = {
  schema: z
    .array(hose.schema)
    .max(6)
    .describe(
      "Hoses side by side between system and pump: up to 6 of {bore, length}; an empty list if the pump sits at the system",
    ),
  required: true,
  read(raw, name, air) {
    const read = (raw as unknown[]).map((one, i) => hose.read(one, `${name}[${i}]`, air));
    const issues = read.flatMap((one): readonly Issue[] =>
      one.kind === "unusable" ? one.issues : [],
    );
    if (issues.length > 0) return { kind: "unusable", issues };
    return {
      kind: "value",
      value: read.flatMap((one) => (one.kind === "value" ? [one.value] : [])),
    };
  },
};

export const pumpDownCalculation = defineCalculation({
  name: "pump-down",
  title: "How long a pump and its hoses need, and what holds them up",
  fields: {
    volume: quantity("volume", "Volume to empty: system and hoses", { from: 1e-5, to: 1 }),
    pump,
    hoses,
    from: optional(pressure("Pressure at the start; the local air if left out")),
    to: pressure("Pressure wanted at the system, such as 500 micron"),
    T: quantity("temperature", "Temperature of the metal", { from: 223.15, to: 373.15 }),
    water: optional(quantity("mass", "Liquid water inside", { from: 0, to: 0.1 })),
  },
  output: z.strictObject({
    reached: z.boolean(),
    time: z.number().optional().describe("Least time, s; absent when the pump cannot go so deep"),
    deepest: z
      .number()
      .optional()
      .describe("Deepest that the pump can go, Pa, when it is not enough"),
    limit: limit.optional().describe("What holds it up longest"),
    spent: z
      .strictObject({ pump: z.number(), hose: z.number(), water: z.number() })
      .optional()
      .describe("s in which each held it up"),
    series: z.array(z.strictObject({ t: z.number(), p: z.number(), pPump: z.number(), limit })),
  }),
  cautions: [cautions.rules, cautions.vacuumTest],
  sources: [
    "Poiseuille's law; Knudsen 1909 for molecular flow and between (coefficients from memory)",
    "ASHRAE Handbook Fundamentals (2017), chapter 1, equations 5 and 6: vapour pressure of water",
  ],
  run({ volume, pump: { flow, ultimate }, hoses: lines, from, to, T, water }, air) {
    const start = from?.p ?? air.p;
    if (!(to.p > 0.01 && to.p < start)) {
      return invalidInput(
        issue("to", to.p, `between 0.01 Pa and the start's ${start.toFixed(0)} Pa`),
      );
    }
    const found = pumpDown({
      volume,
      pump: { speed: flow / 60, ultimate },
      hoses: lines,
      from: start,
      to: to.p,
      T,
      water: water ?? 0,
    });
    const assumptions = [
      "Least time of a dry, clean system with its valve cores taken out: oil and rubber give off gas, and cores left in take 2 to 10 times as long (common practice, no source).",
      ...((water ?? 0) > 0
        ? [
            "Water boils away at the temperature given; without heat it cools, freezes and takes longer.",
          ]
        : []),
    ];
    if (found.kind === "too-deep") {
      return {
        kind: "answer",
        result: { reached: false, deepest: found.deepest, limit: "pump" as const, series: [] },
        assumptions,
      };
    }
    const { spent, time, series } = found;
    const longest = (["pump", "hose", "water"] as const).reduce((a, b) =>
      spent[b] > spent[a] ? b : a,
    );
    return {
      kind: "answer",
      result: { reached: true, time, limit: longest, spent, series: [...series] },
      assumptions,
    };
  },
});
