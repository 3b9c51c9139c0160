import type { StoredEvent } from "../src/trial/index.ts";

export function longLog(kind: "stream" | "readings", count: number): readonly StoredEvent[];
