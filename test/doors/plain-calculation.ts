import { z } from "zod";
import type { ServerDeps } from "../../src/server/index.ts";

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
      const value = JSON.stringify(raw).slice(0, 40);
      return { kind: "invalid", issues: [{ field: "x", value, accepted: "a number" }] };
    }
    const { x } = parsed.data;
    if (x < 0) {
      return { kind: "no-answer", reason: "below-minimum", message: "no root", numbers: { x } };
    }
    const result = { root: Math.sqrt(x) };
    return { kind: "answer", result, cautions: ["none"], sources: ["arithmetic"] };
  },
} satisfies Pick<ServerDeps, "calculations" | "compute">;
