import { test } from "vitest";
import { checkSynchronisation } from "../sync/rounds.ts";

test("1,000 interleavings of five devices over a bad network: one log, one ledger", () =>
  checkSynchronisation(1_000, 7));
