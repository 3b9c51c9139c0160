import type { Role } from "../shell/access.ts";

/** What each role is called, and what it may do. */
export const roleWords: Readonly<Record<Role, { readonly name: string; readonly may: string }>> = {
  owner: { name: "Owner", may: "reads, writes and lets devices in" },
  tester: { name: "Tester", may: "reads and writes" },
  viewer: { name: "Viewer", may: "reads" },
};
