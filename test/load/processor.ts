import { readdirSync, readFileSync } from "node:fs";

/** The kernel counts processor time in hundredths of a second. */
const tick = 10;

/** Processor time of a process and of all its children that still run or were waited for, ms. */
export function processorOf(pid: number): number {
  const all = [...processes()];
  const sumOf = (id: number, time: number): number =>
    all
      .filter(([, { parent }]) => parent === id)
      .reduce((sum, [child, of]) => sum + sumOf(child, of.time), time);
  return sumOf(pid, new Map(all).get(pid)?.time ?? NaN);
}

function processes() {
  const found = new Map<number, { parent: number; time: number }>();
  for (const name of readdirSync("/proc").filter((entry) => /^\d+$/.test(entry))) {
    const fields = fieldsOf(`/proc/${name}/stat`);
    // After the name: state, parent …; user and system time, own and of children that were waited for.
    const time = [11, 12, 13, 14].reduce((sum, i) => sum + Number(fields[i]), 0);
    if (fields.length > 14)
      found.set(Number(name), { parent: Number(fields[1]), time: tick * time });
  }
  return found;
}

function fieldsOf(file: string): string[] {
  try {
    return readFileSync(file, "utf8").split(") ").at(-1)?.split(" ") ?? [];
  } catch {
    // It ended meanwhile.
    return [];
  }
}

/** Processor time that all processes of the machine together have used, ms. */
export function processorOfAll(): number {
  const [first = ""] = readFileSync("/proc/stat", "utf8").split("\n");
  const [, user, nice, system, , , irq, soft, steal] = first.split(/ +/).map(Number);
  const busy = [user, nice, system, irq, soft, steal];
  return tick * busy.reduce<number>((sum, part = 0) => sum + part, 0);
}

/** Resident memory of a process, MB. */
export function memoryOf(pid: number): number {
  const status = readFileSync(`/proc/${pid}/status`, "utf8");
  return Number(/VmRSS:\s+(\d+)/.exec(status)?.[1] ?? NaN) / 1024;
}
