import { computed, signal } from "@preact/signals";
import type { UnitSystem } from "../../report/index.ts";
import { safety } from "../shell/synchronising.ts";

/** Units of the report, chosen once for saving, opening and looking. */
export const reportUnits = signal<UnitSystem>("as-typed");

/** The server can write the report only from what has reached it. */
export const serverHasAll = computed(
  () => safety.value.server === "reached" && safety.value.waiting === 0,
);

export const reportAddress = (trial: string, units: UnitSystem): string =>
  `/api/trials/${encodeURIComponent(trial)}/report?units=${units}`;
