import { expect, test } from "vitest";
import { cellOf } from "./cells.ts";
import { clockText, formsOf, secondsOf } from "./clock.ts";
import { inspectTable } from "./inspect.ts";
import { type Mapping, readTrace } from "./read.ts";
import { tableOf } from "./table.ts";

const air = 94_000;

const vent = (form: Mapping["time"]["form"], decimal: Mapping["decimal"] = "."): Mapping => ({
  decimal,
  time: { column: "t", form },
  columns: [{ column: "vent", quantity: "vent-temperature", unit: "°C" }],
});

test("cells: numbers, marks and words are told apart", () => {
  const kind = (text: string, decimal: "." | "," = ".") => {
    const cell = cellOf(text, decimal);
    return cell.kind === "number" ? cell.value : cell.problem;
  };
  expect(kind("-3.5e1")).toBe(-35);
  expect(kind("−4")).toBe(-4);
  expect(kind("8,25", ",")).toBe(8.25);
  expect(kind("8,25")).toBe("not-a-number");
  expect(kind("8.25", ",")).toBe("not-a-number");
  for (const mark of ["OL", "O.L", "over", ">500", "+inf"]) expect(kind(mark)).toBe("over-range");
  for (const mark of ["---", "–", "n/a", "NaN", "Err", "..."])
    expect(kind(mark)).toBe("no-value-mark");
  expect(kind("")).toBe("blank-cell");
  expect(kind("12 apples")).toBe("not-a-number");
  expect(kind("1e999")).toBe("not-a-number");
});

test("clocks: day first, month first, 12 hours, elapsed, and dates that do not exist", () => {
  const at = (text: string, form: Mapping["time"]["form"]) => {
    const s = secondsOf(text, form, 60);
    return s === undefined ? undefined : clockText(s);
  };
  expect(at("15.06.2026 13:05:00", "day-first")).toBe("2026-06-15T13:05:00");
  expect(at("6/15/26 1:05:00 pm", "month-first")).toBe("2026-06-15T13:05:00");
  expect(at("6/15/26 12:05:00 am", "month-first")).toBe("2026-06-15T00:05:00");
  expect(at("2026-06-15 13:05:00.5", "iso")).toBe("2026-06-15T13:05:00.500");
  expect(at("31.04.2026 13:05:00", "day-first")).toBeUndefined();
  expect(at("15.06.2026 25:05:00", "day-first")).toBeUndefined();
  expect(secondsOf("1,5", "elapsed", 60)).toBe(90);
  expect(secondsOf("0:01:30", "elapsed", 1)).toBe(90);
  expect(formsOf(["03/04/2026 10:00:00"])).toEqual(["day-first", "month-first"]);
  expect(formsOf(["13/04/2026 10:00:00"])).toEqual(["day-first"]);
});

test("a table: byte-order mark, comments above, line ends, quoted cells, double headings", () => {
  const table = tableOf(
    '\uFEFFlogger 7\r\n# set by hand\r\nt;"vent; left";vent;vent\r\n0;1;2;3\r\n',
  );
  expect(table.delimiter).toBe(";");
  expect(table.headings).toEqual(["t", "vent; left", "vent", "vent (2)"]);
  expect(table.headingLine).toBe(3);
  expect(table.comments.map(({ line }) => line)).toEqual([1, 2]);
  expect(table.rows.map(({ line, cells }) => [line, cells])).toEqual([[4, ["0", "1", "2", "3"]]]);
});

test("a decimal comma does not pass for a delimiter", () => {
  expect(tableOf("t;a\n1,5;2,5\n2,5;3,5\n3,5;4,5").delimiter).toBe(";");
  expect(tableOf("t\ta\n1,5\t2,5\n2,5\t3,5").delimiter).toBe("\t");
});

test("every bad line and cell is listed with its line and kept aside, good cells stay", () => {
  const lines = [
    "t,vent,low psig",
    "0,5.0,30",
    "1,OL,30",
    "2,5.2,",
    "2,5.2,",
    "soon,5.2,30",
    "3,5.1",
    "4,5.1,31,9",
    "5,5.2,31",
    "3,5.2,31",
    "6,5.3,-40",
    "60,5.2,31",
  ];
  const mapping: Mapping = {
    ...vent("elapsed"),
    columns: [
      { column: "vent", quantity: "vent-temperature", unit: "°C" },
      { column: "low psig", quantity: "low-side", unit: "psig" },
    ],
  };
  const { problems, series, rows } = readTrace(lines.join("\n"), mapping, air);
  expect(problems.map(({ line, kind }) => `${line} ${kind}`)).toEqual([
    "3 over-range",
    "4 blank-cell",
    "5 repeated-row",
    "6 bad-time",
    "7 short-row",
    "8 long-row",
    "10 time-runs-back",
    "11 impossible-value",
    "12 gap-in-time",
  ]);
  expect(rows).toEqual({ read: 11, kept: 6 });
  expect([...(series[0]?.t ?? [])]).toEqual([0, 2, 5, 6, 60]);
  expect([...(series[1]?.t ?? [])]).toEqual([0, 1, 5, 60]);
  // Gauge pressure got the air: 30 psig = 206 843 Pa (1 psi = 6894.757 Pa, facts head).
  expect(series[1]?.values[0]).toBeCloseTo(206_842.7 + air, 0);
  expect(problems.find(({ line }) => line === 3)).toMatchObject({ raw: "OL", keptRest: true });
});

test("a column that the mapping names and the file lacks is said, not guessed", () => {
  const { problems, series } = readTrace("t,other\n0,1\n1,2", vent("elapsed"), air);
  expect(series).toEqual([]);
  expect(problems.map(({ kind, column }) => [kind, column])).toEqual([["missing-column", "vent"]]);
  const noTime = readTrace("x,vent\n0,1\n1,2", vent("elapsed"), air);
  expect(noTime.problems.some(({ kind }) => kind === "missing-column")).toBe(true);
});

test("a sensor that drops out for seconds, and one that is stuck, are kept aside", () => {
  const wave = (i: number) => (20 + Math.sin(i) + i / 100).toFixed(2);
  const rows = Array.from({ length: 300 }, (_, i) => {
    if (i === 100 || i === 101) return `${i},0.0`;
    if (i >= 200 && i < 240) return `${i},21.00`;
    return `${i},${wave(i)}`;
  });
  const { problems, series } = readTrace(["t,vent", ...rows].join("\n"), vent("elapsed"), air);
  expect(problems.map(({ line, kind }) => `${line} ${kind}`)).toEqual([
    "102 drop-out",
    "103 drop-out",
    "202 stuck-sensor",
  ]);
  expect(series[0]?.values.length).toBe(300 - 2 - 40);
});

test("a true step is no drop-out", () => {
  const rows = Array.from({ length: 200 }, (_, i) => `${i},${i < 100 ? 30 : 10}.${i % 7}`);
  const { problems } = readTrace(["t,vent", ...rows].join("\n"), vent("elapsed"), air);
  expect(problems).toEqual([]);
});

test("nothing a file holds makes reading fail", () => {
  for (const content of ["", "\n\n", "a", "t,vent", ";;;\n,,,", '"', "t,vent\n\u0000,\u0000"]) {
    expect(readTrace(content, vent("elapsed"), air).rows.kept).toBe(0);
    expect(inspectTable(content).columns.length).toBeGreaterThanOrEqual(0);
  }
});

test("suggestions name what the heading leaves open", () => {
  const found = inspectTable("time,LP kPa,HP kPa abs,vent C\n0,200,900,8\n1,201,901,8\n");
  expect(found.columns).toMatchObject([
    { column: "LP kPa", quantity: "low-side", unit: "kPa(g)" },
    { column: "HP kPa abs", quantity: "high-side", unit: "kPa" },
    { column: "vent C", quantity: "vent-temperature", unit: "°C" },
  ]);
  expect(found.columns[0]?.doubt).toMatch(/gauge/u);
  expect(found.columns[1]?.doubt).toBeUndefined();
  expect(found.signature).toBe(inspectTable("Time,LP  kPa,hp kPa abs,vent C\n0,1,1,1").signature);
});

test("what is kept aside carries its time from the start, where its clock can be trusted", () => {
  const rows = [
    "2026-06-15 10:00:00,20,x",
    "2026-06-15 10:00:01,OL,x",
    "2026-06-15 10:00:02,20",
    "no clock,20,x",
    "2026-06-15 09:00:00,20,x",
    "2026-06-15 10:0",
    "2026-06-15 10:00:06,20,x",
  ];
  const { problems } = readTrace(["t,vent,other", ...rows].join("\n"), vent("iso"), air);
  expect(problems.map(({ kind, seconds }) => [kind, seconds])).toEqual([
    ["over-range", 1],
    ["short-row", 2],
    ["bad-time", undefined],
    ["time-runs-back", undefined],
    ["short-row", undefined],
  ]);
});
