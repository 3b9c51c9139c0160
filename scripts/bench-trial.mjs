// Seconds to project and to open long logs: one of samples from a stream, one of readings typed or posted
// singly. Printed beside the events of each, so that a cost that grows faster than the log is seen.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";

const sizes = [25_000, 50_000, 100_000, 200_000];
const trialId = "7a11a5ed-0000-4000-8000-000000000001";
const start = Date.UTC(2026, 5, 14, 8);

/** UUIDv7 of an instant and a number: what a device makes, without its randomness. */
function eventId(ms, n) {
  const time = ms.toString(16).padStart(12, "0");
  return `${time.slice(0, 8)}-${time.slice(8)}-7000-8000-${n.toString(16).padStart(12, "0")}`;
}

function event(n, type, body) {
  const ms = start + 1000 * n;
  const at = new Date(ms).toISOString();
  return { id: eventId(ms, n), trial: trialId, at, device: "bench", type, v: 1, body };
}

const opened = event(0, "trial-opened", { title: "Long", question: "How long does it take?" });
const columns = [
  { column: "vent", quantity: "vent-temperature", unit: "°C" },
  { column: "low", quantity: "low-side", unit: "psig" },
  { column: "speed", quantity: "vehicle-speed", unit: "km/h" },
];

/** What one instrument says a second apart, one sample an event: the longest form of a stream. */
function stream(count) {
  const opening = event(1, "stream-opened", { stage: "run", name: "Logger", columns });
  const samples = Array.from({ length: count - 2 }, (_, i) => {
    const n = i + 2;
    const values = [
      7 + 12 * Math.exp(-i / 300) + 0.1 * Math.sin(i),
      30 + Math.sin(i / 7),
      60 + (i % 5),
    ];
    const at = new Date(start + 1000 * n).toISOString();
    return event(n, "samples-received", { stream: opening.id, samples: [{ at, values }] });
  });
  return [opened, opening, ...samples];
}

function readings(count) {
  return [
    opened,
    ...Array.from({ length: count - 1 }, (_, i) =>
      event(i + 1, "reading-taken", {
        stage: "prove",
        quantity: "vent-temperature",
        form: "steady",
        value: { value: 7 + 0.1 * Math.sin(i), unit: "°C" },
      }),
    ),
  ];
}

const logs = { stream, readings };

/** A log of so many events of one kind. */
export const longLog = (kind, count) => logs[kind](count);

/** @param trial the room of the log, bundled. */
export function benchTrial({ project, freshMemory }) {
  console.log("\nSeconds to project a log of so many events (once more with one event added)");
  for (const [name, make] of Object.entries(logs)) {
    project(make(2000));
    for (const size of sizes) {
      const log = JSON.parse(JSON.stringify(make(size)));
      const more = [...log, event(size, "note-written", { stage: "run", text: "One more." })];
      const memory = freshMemory();
      const first = seconds(() => project(log, memory));
      const again = seconds(() => project(more, memory));
      console.log(`${name.padEnd(9)} ${String(size).padStart(7)}  ${first}  (${again})`);
    }
  }
}

/**
 * From the database's file to the whole view.
 *
 * @param store the room of the store, bundled.
 */
export async function benchOpening({ openSqliteStore }, { project }) {
  console.log("\nSeconds to open a log of so many events from SQLite (of which reading)");
  const folder = mkdtempSync(join(tmpdir(), "coldproof-bench-"));
  for (const [name, make] of Object.entries(logs)) {
    for (const size of sizes) {
      const { store } = await openSqliteStore(join(folder, `${name}-${size}.sqlite`));
      const log = make(size);
      for (let i = 0; i < size; i += 5000) await store.append(log.slice(i, i + 5000));
      const began = performance.now();
      const { events } = await store.read(trialId);
      const read = performance.now() - began;
      const all = read + 1000 * Number(seconds(() => project(events)));
      console.log(
        `${name.padEnd(9)} ${String(size).padStart(7)}  ${(all / 1000).toFixed(3)}  (${(read / 1000).toFixed(3)})`,
      );
      await store.close();
    }
  }
  rmSync(folder, { recursive: true });
}

function seconds(work) {
  const began = performance.now();
  work();
  return ((performance.now() - began) / 1000).toFixed(3);
}
