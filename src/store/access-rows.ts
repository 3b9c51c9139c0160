import type { Kysely } from "kysely";
import { type AccessRecords, type Device, type DeviceRecord, type Role, roles } from "./access.ts";
import type { Tables } from "./schema.ts";
import type { seenDevices } from "./seen.ts";

/**
 * Who may open what, in the database.
 *
 * @param seen    when devices asked, before it is written.
 * @param guarded runs a query and turns a lost connection into `StoreUnavailable`.
 * @param revoked tells that a device was revoked.
 */
export function accessRecords(
  db: Kysely<Tables>,
  seen: ReturnType<typeof seenDevices>,
  guarded: <T>(query: () => Promise<T>) => Promise<T>,
  revoked: (device: string) => Promise<void>,
): AccessRecords {
  return {
    workspaces: () =>
      guarded(() => db.selectFrom("workspace").selectAll().orderBy("created").execute()),
    workspace: (id) =>
      guarded(() => db.selectFrom("workspace").selectAll().where("id", "=", id).executeTakeFirst()),
    keepWorkspace: (workspace) =>
      guarded(async () => {
        const { name, epoch } = workspace;
        await db
          .insertInto("workspace")
          .values(workspace)
          .onConflict((on) => on.column("id").doUpdateSet({ name, epoch }))
          .execute();
      }),
    offer: ({ codeHash, ...pairing }, now) =>
      guarded(async () => {
        await db.deleteFrom("pairing").where("expires", "<=", now).execute();
        await db
          .insertInto("pairing")
          .values({ code_hash: codeHash, ...pairing })
          .execute();
      }),
    redeem: (codeHash, now, device) => guarded(() => redeem(db, codeHash, now, device)),
    deviceOf: (keyHash) =>
      guarded(async () => {
        const row = await db
          .selectFrom("device")
          .selectAll()
          .where("key_hash", "=", keyHash)
          .where("revoked", "is", null)
          .executeTakeFirst();
        return row === undefined ? undefined : deviceView(row);
      }),
    devices: (workspace) =>
      guarded(async () => {
        const rows = await db
          .selectFrom("device")
          .selectAll()
          .where("workspace", "=", workspace)
          .orderBy("created")
          .orderBy("id")
          .execute();
        return rows.map((row) => {
          const lastSeen = seen.of(row.id) ?? row.seen;
          return { ...deviceView(row), lastSeen, keyHash: row.key_hash };
        });
      }),
    saw: seen.note,
    keepDevice: ({ keyHash, lastSeen, ...device }) =>
      guarded(async () => {
        await db
          .insertInto("device")
          .values({ ...device, key_hash: keyHash, seen: lastSeen })
          .onConflict((on) => on.column("id").doNothing())
          .execute();
      }),
    revoke: (workspace, id, now) =>
      guarded(async () => {
        const found = await db
          .updateTable("device")
          .set((eb) => ({ revoked: eb.fn.coalesce("revoked", eb.val(now)) }))
          .where("workspace", "=", workspace)
          .where("id", "=", id)
          .returning("id")
          .executeTakeFirst();
        if (found !== undefined) await revoked(id);
        return found !== undefined;
      }),
  };
}

/** One transaction, so that a code makes one device however many ask at once. */
async function redeem(
  db: Kysely<Tables>,
  codeHash: string,
  now: string,
  { id, name, keyHash }: { id: string; name: string; keyHash: string },
): Promise<Device | undefined> {
  return db.transaction().execute(async (tx) => {
    const offer = await tx
      .deleteFrom("pairing")
      .where("code_hash", "=", codeHash)
      .where("expires", ">", now)
      .returningAll()
      .executeTakeFirst();
    if (offer === undefined) return undefined;
    const { workspace, role } = offer;
    const row = {
      id,
      workspace,
      name: name === "" ? offer.name : name,
      role,
      key_hash: keyHash,
      created: now,
      revoked: null,
      seen: null,
    };
    await tx.insertInto("device").values(row).execute();
    return deviceView(row);
  });
}

function deviceView(row: Tables["device"]): Omit<DeviceRecord, "keyHash"> {
  const { id, workspace, name, created, revoked, seen: lastSeen } = row;
  return { id, workspace, name, role: roleOf(row.role), created, revoked, lastSeen };
}

/** A word that is no role gives the least: a later version may have more roles. */
function roleOf(word: string): Role {
  return roles.find((role) => role === word) ?? "viewer";
}
