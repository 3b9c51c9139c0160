import fc from "fast-check";
import { expect, test } from "vitest";
import { bodySchemas } from "./events.ts";
import { isPlainBody } from "./plain-body.ts";

const id = fc.uuid({ version: [4, 7] });
const instant = fc.oneof(
  { weight: 4, arbitrary: fc.nat(4e8).map((s) => new Date(1.7e12 + 1000 * s).toISOString()) },
  { weight: 1, arbitrary: fc.constantFrom("2026-02-30T10:00:00Z", "2026-06-14T08:41:00+02:00") },
);
const odd = fc.constantFrom(NaN, Infinity, null, undefined, "", " x ", "7", true, [], {}, [{}]);
const plainRecord = <T extends object>(model: { [K in keyof T]: fc.Arbitrary<T[K]> }) =>
  fc.record(model, { noNullPrototype: true });
/** The same with one field changed or added, now and then. */
const spoiled = <T extends object>(arbitrary: fc.Arbitrary<T>, fields: readonly string[]) =>
  fc
    .tuple(arbitrary, fc.option(fc.tuple(fc.constantFrom(...fields, "other"), odd), { freq: 1 }))
    .map(([body, change]): object => (change ? { ...body, [change[0]]: change[1] } : body));

const sample = plainRecord({
  at: instant,
  values: fc.array(fc.oneof(fc.double({ noNaN: true }), fc.constant(null)), { maxLength: 4 }),
});
const batch = spoiled(
  plainRecord({
    stream: id,
    samples: fc.array(spoiled(sample, ["at", "values"]), { maxLength: 2 }),
  }),
  ["stream", "samples"],
);
const reading = spoiled(
  plainRecord({
    stage: fc.constantFrom("prove", "run", "nowhere"),
    quantity: fc.constantFrom("low-side", "vent-temperature", "none"),
    form: fc.constantFrom("steady", "lowest", "other"),
    value: spoiled(
      plainRecord({
        value: fc.double({ noNaN: true }),
        unit: fc.constantFrom("°C", "psig", "", " bar", "a unit that is far too long"),
      }),
      ["value", "unit"],
    ),
    when: instant,
    instrument: id,
  }),
  ["stage", "quantity", "form", "value", "when", "instrument", "run", "round", "note"],
);

test.each([
  ["samples-received", batch],
  ["reading-taken", reading],
] as const)("what passes as a plain %s is what its schema takes as it is", (type, bodies) => {
  let plain = 0;
  const property = fc.property(bodies, (body) => {
    if (!isPlainBody(type, body)) return;
    plain++;
    const result = bodySchemas[type].safeParse(body);
    expect(result.success && result.data).toStrictEqual(body);
  });
  fc.assert(property, { seed: 11, numRuns: 4000 });
  expect(plain).toBeGreaterThan(100);
});
