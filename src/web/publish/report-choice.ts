import { computed, signal } from "@preact/signals";
import type { UnitSystem } from "../../report/index.ts";
import { pairing } from "../shell/access.ts";
import { safety } from "../shell/synchronising.ts";

/** Units of the report, chosen once for saving, opening and looking. */
export const reportUnits = signal<UnitSystem>("as-typed");

/**
 * The server can write the report only from what has reached it; and a frame or a new window, which carry
 * no key, reach it only where none is asked for.
 */
export const serverHasAll = computed(
  () =>
    safety.value.server === "reached" && safety.value.waiting === 0 && pairing.value === undefined,
);

export const reportAddress = (trial: string, units: UnitSystem): string =>
  `/api/trials/${encodeURIComponent(trial)}/report?units=${units}`;
