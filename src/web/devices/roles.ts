import type { Role } from "../shell/access.ts";
import type { Refusal } from "./devices.ts";

/** What each role is called, and what it may do. */
export const roleWords: Readonly<Record<Role, { readonly name: string; readonly may: string }>> = {
  owner: { name: "Owner", may: "reads, writes and lets devices in" },
  tester: { name: "Tester", may: "reads and writes" },
  viewer: { name: "Viewer", may: "reads" },
};

export const refusals: Readonly<Record<Refusal, string>> = {
  away: "The server does not answer. The list of devices comes from it; look again when it is back.",
  "last-owner": "The last owner stays. Pair another owner first.",
  "not-allowed": "Only an owner’s device sees the others and lets new ones in.",
  "not-offered":
    "This server serves this machine alone and keeps no list of devices. Start it for the network to pair a phone: npm start -- --lan",
};
