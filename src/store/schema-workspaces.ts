import { randomUUID } from "node:crypto";
import type { Kysely } from "kysely";
import { chainHash, chainStart } from "../trial/index.ts";
import { homeWorkspace } from "./log-store.ts";

/** The tables as version 0001 left them, renamed, and those that take their place. */
interface Passing {
  trial_0001: { id: string; last_seq: number };
  event_0001: { id: string; trial: string; seq: number; content: string };
  workspace: { id: string; name: string; epoch: string; created: string };
  trial: { workspace: string; id: string; last_seq: number; head: string };
  event: {
    workspace: string;
    id: string;
    trial: string;
    seq: number;
    content: string;
    hash: string;
  };
}

const piece = 1000;

/**
 * Version 0002: workspaces, chains, devices and pairings. What was there becomes the home workspace and
 * gets its chains computed. The same trial may then live in two workspaces, so keys begin with the
 * workspace; SQLite cannot change a primary key, hence new tables.
 */
export async function addWorkspaces(db: Kysely<Passing>): Promise<void> {
  await db.schema.alterTable("trial").renameTo("trial_0001").execute();
  await db.schema.alterTable("event").renameTo("event_0001").execute();
  await createLogTables(db);
  await createAccessTables(db);
  const created = new Date().toISOString();
  const home = { id: homeWorkspace, name: "Home", epoch: randomUUID(), created };
  await db.insertInto("workspace").values(home).execute();
  for (const { id } of await db.selectFrom("trial_0001").select("id").orderBy("id").execute()) {
    await moveTrial(db, id);
  }
  await db.schema.dropTable("event_0001").execute();
  await db.schema.dropTable("trial_0001").execute();
}

async function createLogTables(db: Kysely<Passing>): Promise<void> {
  await db.schema
    .createTable("workspace")
    .addColumn("id", "text", (column) => column.primaryKey())
    .addColumn("name", "text", (column) => column.notNull())
    .addColumn("epoch", "text", (column) => column.notNull())
    .addColumn("created", "text", (column) => column.notNull())
    .execute();
  await db.schema
    .createTable("trial")
    .addColumn("workspace", "text", (column) => column.notNull().references("workspace.id"))
    .addColumn("id", "text", (column) => column.notNull())
    .addColumn("last_seq", "integer", (column) => column.notNull())
    .addColumn("head", "text", (column) => column.notNull())
    .addPrimaryKeyConstraint("trial_of_workspace", ["workspace", "id"])
    .execute();
  await db.schema
    .createTable("event")
    .addColumn("workspace", "text", (column) => column.notNull())
    .addColumn("id", "text", (column) => column.notNull())
    .addColumn("trial", "text", (column) => column.notNull())
    .addColumn("seq", "integer", (column) => column.notNull())
    .addColumn("content", "text", (column) => column.notNull())
    .addColumn("hash", "text", (column) => column.notNull())
    .addPrimaryKeyConstraint("event_of_workspace", ["workspace", "id"])
    .addUniqueConstraint("event_in_trial", ["workspace", "trial", "seq"])
    .addForeignKeyConstraint("event_trial", ["workspace", "trial"], "trial", ["workspace", "id"])
    .execute();
}

async function createAccessTables(db: Kysely<Passing>): Promise<void> {
  await db.schema
    .createTable("device")
    .addColumn("id", "text", (column) => column.primaryKey())
    .addColumn("workspace", "text", (column) => column.notNull().references("workspace.id"))
    .addColumn("name", "text", (column) => column.notNull())
    .addColumn("role", "text", (column) => column.notNull())
    .addColumn("key_hash", "text", (column) => column.notNull().unique())
    .addColumn("created", "text", (column) => column.notNull())
    .addColumn("revoked", "text")
    .execute();
  await db.schema
    .createIndex("device_of_workspace")
    .on("device")
    .columns(["workspace", "created"])
    .execute();
  await db.schema
    .createTable("pairing")
    .addColumn("code_hash", "text", (column) => column.primaryKey())
    .addColumn("workspace", "text", (column) => column.notNull().references("workspace.id"))
    .addColumn("role", "text", (column) => column.notNull())
    .addColumn("name", "text", (column) => column.notNull())
    .addColumn("expires", "text", (column) => column.notNull())
    .execute();
}

/** In pieces, so that a long log needs little memory. */
async function moveTrial(db: Kysely<Passing>, trial: string): Promise<void> {
  const workspace = homeWorkspace;
  let seq = 0;
  let head = chainStart;
  await db.insertInto("trial").values({ workspace, id: trial, last_seq: 0, head }).execute();
  for (;;) {
    const rows = await db
      .selectFrom("event_0001")
      .select(["id", "seq", "content"])
      .where("trial", "=", trial)
      .where("seq", ">", seq)
      .orderBy("seq")
      .limit(piece)
      .execute();
    if (rows.length === 0) break;
    const moved = rows.map((row) => {
      head = chainHash(head, row.content);
      return { workspace, trial, ...row, hash: head };
    });
    await db.insertInto("event").values(moved).execute();
    seq = rows.at(-1)?.seq ?? seq;
  }
  await db
    .updateTable("trial")
    .set({ last_seq: seq, head })
    .where("workspace", "=", workspace)
    .where("id", "=", trial)
    .execute();
}
