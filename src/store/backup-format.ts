import { createReadStream } from "node:fs";
import { createInterface } from "node:readline";
import { z } from "zod";
import { chainHash, chainStart } from "../trial/index.ts";
import { roles } from "./access.ts";

/** Sums of what a copy holds. `seal` is the chain over the heads of all trials, in the copy's order. */
export interface Contents {
  readonly workspaces: number;
  readonly trials: number;
  readonly events: number;
  readonly seal: string;
}

const text = z.string();
const lineSchema = z.union([
  z.object({ format: z.literal("coldproof-backup"), version: z.literal(1), made: text }),
  z.object({ workspace: z.object({ id: text, name: text, epoch: text, created: text }) }),
  z.object({
    device: z.object({
      ...{ id: text, workspace: text, name: text, role: z.enum(roles), keyHash: text },
      ...{ created: text, revoked: text.nullable() },
      // Copies that older versions made have none.
      lastSeen: text.nullable().default(null),
    }),
  }),
  z.object({
    trial: z.object({ workspace: text, trial: text, events: z.int(), head: text }),
  }),
  z.object({ seq: z.int(), content: text, hash: text }),
  z.object({
    end: z.object({ workspaces: z.int(), trials: z.int(), events: z.int(), seal: text }),
  }),
]);
export type BackupLine = z.infer<typeof lineSchema>;

/** The seal over all trials so far, and one more. */
export function sealWith(
  seal: string,
  {
    workspace,
    trial,
    events,
    head,
  }: { workspace: string; trial: string; events: number; head: string },
): string {
  return chainHash(seal, JSON.stringify([workspace, trial, events, head]));
}

/** What is wrong with a copy: the line, and a sentence. Nothing has been taken from it then. */
export interface BackupFault {
  readonly line: number;
  readonly what: string;
}

/** The lines of a file, each looked at. @throws FaultyBackup at the first that is none. */
async function* linesOf(file: string): AsyncGenerator<{ line: BackupLine; number: number }> {
  let number = 0;
  const lines = createInterface({ input: createReadStream(file, "utf8"), crlfDelay: Infinity });
  for await (const raw of lines) {
    number++;
    const parsed = lineSchema.safeParse(valueOf(raw));
    if (!parsed.success) throw new FaultyBackup({ line: number, what: "is no line of a backup" });
    yield { line: parsed.data, number };
  }
}

function valueOf(raw: string): unknown {
  try {
    return JSON.parse(raw) as unknown;
  } catch {
    return undefined;
  }
}

/** A copy that is not whole or not sound. */
export class FaultyBackup extends Error {
  override readonly name = "FaultyBackup";
  readonly fault: BackupFault;
  constructor(fault: BackupFault) {
    super(`line ${fault.line} ${fault.what}`);
    this.fault = fault;
  }
}

/**
 * Reads a copy from its first to its last line: every chain, every number, and its end.
 *
 * @param take is told of each line after it was found sound.
 * @throws FaultyBackup; errors of the file system pass.
 */
export async function readBackup(
  file: string,
  take: (line: BackupLine) => Promise<void> = () => Promise.resolve(),
): Promise<Contents> {
  const check = backupCheck();
  let number = 0;
  for await (const { line, number: at } of linesOf(file)) {
    number = at;
    const what = check.next(line);
    if (what !== undefined) throw new FaultyBackup({ line: at, what });
    await take(line);
  }
  const contents = check.contents();
  if (contents === undefined) {
    throw new FaultyBackup({
      line: number,
      what: "is the last one, and the copy is not at its end",
    });
  }
  return contents;
}

/** Follows the lines of a copy; `next` says what is wrong with one. */
function backupCheck() {
  let began = false;
  let workspaces = 0;
  let trials = 0;
  let events = 0;
  let seal = chainStart;
  let end: Contents | undefined;
  let open: { workspace: string; trial: string; events: number; head: string } | undefined;
  let at = { seq: 0, head: chainStart };

  const closeTrial = (): string | undefined => {
    if (open === undefined) return undefined;
    const whole = at.seq === open.events && at.head === open.head;
    seal = sealWith(seal, open);
    open = undefined;
    return whole ? undefined : "comes after a trial that is not whole";
  };
  const event = ({ seq, content, hash }: { seq: number; content: string; hash: string }) => {
    const head = chainHash(at.head, content);
    if (open === undefined || seq !== at.seq + 1 || hash !== head)
      return "breaks its trial's chain";
    at = { seq, head };
    events++;
    return undefined;
  };
  const next = (line: BackupLine): string | undefined => {
    if ("format" in line) {
      const first = !began;
      began = true;
      return first ? undefined : "is a second beginning";
    }
    if (!began) return "comes before the beginning";
    if (end !== undefined) return "comes after the end";
    if ("seq" in line) return event(line);
    const fault = closeTrial();
    if (fault !== undefined) return fault;
    if ("workspace" in line) workspaces++;
    if ("trial" in line) {
      trials++;
      open = line.trial;
      at = { seq: 0, head: chainStart };
    }
    if ("end" in line) {
      end = line.end;
      const same = [workspaces, trials, events, seal].join() === sums(end);
      return same ? undefined : "counts other contents than the copy has";
    }
    return undefined;
  };
  return { next, contents: () => end };
}

function sums({ workspaces, trials, events, seal }: Contents): string {
  return [workspaces, trials, events, seal].join();
}
