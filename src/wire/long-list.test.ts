import fc from "fast-check";
import { expect, test } from "vitest";
import { parseJson } from "./json.ts";
import { parseLongList } from "./long-list.ts";

function read(text: string) {
  const reading = parseLongList(text, "body", "events");
  let slices = 0;
  let step = reading.next();
  for (; step.done !== true; step = reading.next()) slices++;
  return { outcome: step.value, slices };
}

const items = fc.array(fc.json({ maxDepth: 3 }), { maxLength: 5 }).map((all) => all.join(","));
const heads = fc.constantFrom(
  ...[
    '{"events":[',
    ' { "a" : 1 , "events" : [ ',
    '{"events":1,"events":[',
    '{"x":"\\"events\\":[',
  ],
  ...['{"x":[1],"events":[', '["events",[', '{"events":"[', '{"__proto__":1,"events":['],
);
const tails = fc.constantFrom(
  "]}",
  " ] } ",
  '],"events":2}',
  '],"b":"]}"}',
  "}}",
  "]",
  "]}x",
  ",]}",
);

test("gives what is read in one go, of sound texts and of broken ones", () => {
  const texts = fc.tuple(
    heads,
    items,
    tails,
    fc.nat(),
    fc.constantFrom("", "", "[", "}", '"', ","),
  );
  fc.assert(
    fc.property(texts, ([head, list, tail, at, odd]) => {
      const text = head + list + tail;
      const cut = at % (text.length + 1);
      const tried = text.slice(0, cut) + odd + text.slice(cut);
      expect(read(tried).outcome).toEqual(parseJson(tried, "body"));
    }),
    { seed: 3, numRuns: 1000 },
  );
});

test("reads a long list in slices, and nesting as deep as in one go", () => {
  const list = Array.from({ length: 20_000 }, (_, n) => ({ n, text: `],{"${n}` }));
  const text = JSON.stringify({ format: 1, events: list });
  const { outcome, slices } = read(text);
  expect(outcome).toEqual({ kind: "json", value: { format: 1, events: list } });
  expect(slices).toBeGreaterThanOrEqual(40);
  expect(slices).toBeLessThan(100);
  for (const n of [61, 62, 63]) {
    const deep = `{"events":[1,${"[".repeat(n)}${"]".repeat(n)}]}`;
    expect(read(deep).outcome).toEqual(parseJson(deep, "body"));
  }
  for (const broken of ["1,,2", "1,", ",", ",1"]) {
    expect(read(`{"events":[${broken}]}`).outcome.kind).toBe("invalid");
  }
});
