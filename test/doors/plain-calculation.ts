import { z } from "zod";
import type { ParsedExport, ServerDeps } from "../../src/server/index.ts";
import { parseEvent, type TrialEvent } from "../../src/trial/index.ts";

const input = z.strictObject({ x: z.number() });

/** One calculation with all three outcomes, to test doors with. */
export const plainCalculation = {
  calculations: [
    {
      name: "root",
      title: "Square root",
      input,
      output: z.strictObject({ root: z.number() }),
      cautions: ["none"],
      sources: ["arithmetic"],
    },
  ],
  compute: (_: string, raw: unknown) => {
    const parsed = input.safeParse(raw);
    if (!parsed.success) {
      return { kind: "invalid", issues: [{ field: "x", value: raw, accepted: "a number" }] };
    }
    if (parsed.data.x < 0) return { kind: "no-answer", reason: "negative", message: "no root" };
    const result = { root: Math.sqrt(parsed.data.x) };
    return { kind: "answer", result, cautions: ["none"], sources: ["arithmetic"] };
  },
} satisfies Pick<ServerDeps, "calculations" | "compute">;

/** The plainest export there can be. */
export const plainExport: Pick<ServerDeps, "exportTrial" | "parseExport"> = {
  exportTrial: (events) => JSON.stringify({ events }),
  parseExport: (raw): ParsedExport => {
    const file = z.object({ events: z.array(z.unknown()).min(1) }).safeParse(raw);
    const bad = { field: "events", value: null, accepted: "events" };
    if (!file.success) return { kind: "invalid", issues: [bad] };
    const events: TrialEvent[] = [];
    for (const item of file.data.events) {
      const parsed = parseEvent(item);
      if (parsed.kind === "invalid") return parsed;
      events.push(parsed.event);
    }
    return { kind: "trial", events };
  },
};
