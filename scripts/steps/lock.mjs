// One set-up at a time in a checkout, however many were started.
import {
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  rmdirSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { stamps } from "./checkout.mjs";
import { say } from "./run.mjs";

const held = join(stamps, "lock");

/**
 * Runs `work` while no other process of this checkout does the same.
 *
 * The lock is a folder that holds its owner's name. Renaming a folder onto an empty or absent one is
 * atomic, so taking it, and taking over what a killed process left, cannot both succeed twice.
 */
export async function withLock(work) {
  const me = ownerName(process.pid);
  let told = false;
  while (!take(me)) {
    const owner = readOwner();
    if (owner !== undefined && !isAlive(owner)) {
      rmSync(join(held, owner), { force: true });
    } else {
      if (owner !== undefined && !told) {
        say(`another set-up runs here (process ${owner.split("-")[0]}); waiting for it`);
        told = true;
      }
      await pause(200);
    }
  }
  try {
    return await work();
  } finally {
    release(me);
  }
}

function take(me) {
  const mine = `${held}.${me}`;
  mkdirSync(mine, { recursive: true });
  writeFileSync(join(mine, me), "");
  try {
    renameSync(mine, held);
    return true;
  } catch {
    rmSync(mine, { recursive: true, force: true });
    return false;
  }
}

function release(me) {
  rmSync(join(held, me), { force: true });
  try {
    rmdirSync(held);
  } catch {
    // Already taken by the next one.
  }
}

function readOwner() {
  try {
    return readdirSync(held)[0];
  } catch {
    return undefined;
  }
}

function isAlive(owner) {
  const pid = Number(owner.split("-")[0]);
  try {
    process.kill(pid, 0);
  } catch (error) {
    return error.code === "EPERM";
  }
  return ownerName(pid) === owner;
}

/** Process number and, where the system tells it, its start: numbers are used again after a restart. */
function ownerName(pid) {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1).split(" ");
    return `${pid}-${fields[19]}`;
  } catch {
    return `${pid}-0`;
  }
}
