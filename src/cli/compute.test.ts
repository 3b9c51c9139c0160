import { Writable } from "node:stream";
import { expect, test } from "vitest";
import { terminal } from "../../test/doors/terminal.ts";
import { longestLine } from "./lines.ts";

const lines = (text: string) =>
  text
    .split("\n")
    .slice(0, -1)
    .map((line) => JSON.parse(line) as unknown);
const answer = (root: number) => ({
  result: { root },
  cautions: ["none"],
  sources: ["arithmetic"],
});

test("--json: an answer ends with 0, bad input with 2, no answer with 3", async () => {
  const good = await terminal(["compute", "root", "--json", '{"x": 9}']);
  expect([good.code, lines(good.out), good.err]).toEqual([0, [answer(3)], ""]);
  const bad = await terminal(["compute", "root", "--json", '{"x": "nine"}']);
  expect(bad.code).toBe(2);
  expect(lines(bad.out)).toMatchObject([{ error: { kind: "invalid", issues: [{ field: "x" }] } }]);
  const none = await terminal(["compute", "root", "--json", '{"x": -1}']);
  expect(none.code).toBe(3);
  expect(lines(none.out)).toMatchObject([
    { error: { kind: "no-answer", reason: "below-minimum" } },
  ]);
});

test("--json: text that is no JSON, and a name that is none, are bad input", async () => {
  const bad = await terminal(["compute", "root", "--json", "{x}"]);
  expect(bad.code).toBe(2);
  expect(lines(bad.out)).toMatchObject([{ error: { issues: [{ field: "input" }] } }]);
  const unknown = await terminal(["compute", "cube", "--json", "{}"]);
  expect(unknown.code).toBe(2);
  const issue = { field: "name", value: "cube", accepted: "one of: root" };
  expect(lines(unknown.out)).toMatchObject([{ error: { issues: [issue] } }]);
});

test("--lines: one line out for each line in, in order, and the next after a bad one", async () => {
  const input = ['{"x": 4}\nnonsense\n{"x"', ": 1", '6}\r\n\n{"x": -1}\n{"x": 25}'];
  const { code, out } = await terminal(["compute", "root", "--lines"], { input });
  expect(code).toBe(0);
  expect(lines(out)).toMatchObject([
    answer(2),
    { error: { kind: "invalid" } },
    answer(4),
    { error: { kind: "invalid" } },
    { error: { kind: "no-answer" } },
    answer(5),
  ]);
});

test("--lines: a newline at the end begins no line, and letters may be cut in two", async () => {
  const cut = [...Buffer.from('{"x": 4, "é": 1}\n')].map((byte) => Uint8Array.of(byte));
  const { out } = await terminal(["compute", "root", "--lines"], { input: cut });
  expect(lines(out)).toMatchObject([{ error: { issues: [{ value: '{"x":4,"é":1}' }] } }]);
  expect((await terminal(["compute", "root", "--lines"])).out).toBe("");
});

test("--lines: a line without end is refused without being held, and the next is answered", async () => {
  function* input() {
    const megabyte = Buffer.alloc(2 ** 20, "9");
    for (let i = 0; i < 300; i++) yield megabyte;
    yield '\n{"x": 4}\n';
  }
  const { out } = await terminal(["compute", "root", "--lines"], { input: input() });
  expect(lines(out)).toMatchObject([
    { error: { issues: [{ accepted: `at most ${longestLine} bytes in a line` }] } },
    answer(2),
  ]);
});

test("--lines: waits for a slow reader instead of filling the memory", async () => {
  let read = 0;
  let written = 0;
  let furthest = 0;
  class Slow extends Writable {
    constructor() {
      super({ highWaterMark: 64 });
    }
    override _write(_: Buffer, __: BufferEncoding, done: () => void): void {
      written++;
      furthest = Math.max(furthest, read - written);
      setImmediate(done);
    }
  }
  async function* stdin() {
    for (; read < 2000; read++) {
      yield Buffer.from('{"x": 4}\n');
      await Promise.resolve();
    }
  }
  await terminal(["compute", "root", "--lines"], { stdin: stdin(), stdout: new Slow() });
  expect(written).toBe(2000);
  expect(furthest).toBeLessThan(10);
});

test("--lines: a reader that leaves ends it quietly", async () => {
  let taken = 0;
  const stdout = new Writable({
    write: (_, __, done) => {
      taken++;
      done(taken > 3 ? Object.assign(new Error("closed"), { code: "EPIPE" }) : null);
    },
  });
  const input = Array.from({ length: 1000 }, () => '{"x": 4}\n');
  const { code, err } = await terminal(["compute", "root", "--lines"], { input, stdout });
  expect([code, err]).toEqual([0, ""]);
  expect(taken).toBeLessThan(10);
});

test("without a name: lists; with a name alone: describes", async () => {
  expect((await terminal(["compute"])).out).toBe("root  Square root\n");
  const { out } = await terminal(["compute", "root"]);
  expect(JSON.parse(out)).toMatchObject({ name: "root", input: { type: "object" } });
  expect((await terminal(["compute", "cube"])).code).toBe(2);
});

test("wrong use ends with 1 and says how", async () => {
  for (const argv of [["--none"], ["compute", "root", "--json"], ["none"]]) {
    const { code, err } = await terminal(argv);
    expect([argv, code]).toEqual([argv, 1]);
    expect(err).toMatch(/error/);
  }
  const both = await terminal(["compute", "root", "--lines", "--json", "{}"]);
  expect([both.code, both.err]).toEqual([1, "coldproof: use --json or --lines, not both.\n"]);
  expect((await terminal(["compute", "--lines"])).code).toBe(1);
  expect((await terminal(["--help"])).code).toBe(0);
  expect((await terminal(["--version"])).out).toBe("0.0.0\n");
});
