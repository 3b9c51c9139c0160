import { Command, CommanderError, Option } from "commander";
import type { UnitSystem } from "../report/index.ts";
import { type Role, roles } from "../store/index.ts";
import { combineFiles } from "./combine.ts";
import { computeLines, computeOne, describeCalculation, listCalculations } from "./compute.ts";
import type { CliDeps } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { backup, restore, verifyLog } from "./keep.ts";
import { makeKey, showKey } from "./key.ts";
import { serve, type ServeOptions } from "./serve.ts";
import { stream, type StreamOptions } from "./stream.ts";
import { type ExportOptions, exportTo, type ReportOptions, reportTo } from "./publish.ts";
import { hideHelp, redactHelp } from "./redact.ts";
import { fail, importTrial, listTrials } from "./trial.ts";
import { verifyFile } from "./verify.ts";
import { createWorkspace, listWorkspaces, pairDevice, type WorkspaceOptions } from "./workspace.ts";

/**
 * Runs the command to its end.
 *
 * @param argv what follows the command's name.
 * @returns the exit code, see exit.ts.
 */
export async function runCli(argv: readonly string[], deps: CliDeps): Promise<number> {
  let code: Exit = exit.done;
  const program = programOf(deps, (ended) => {
    code = ended;
  });
  try {
    await program.parseAsync([...argv], { from: "user" });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode;
    throw error;
  }
}

function programOf(deps: CliDeps, end: (code: Exit) => void): Command {
  const program = new Command("coldproof")
    .description("Test a refrigerant on a real vehicle, and compute with what is known about it.")
    .version(deps.version)
    .exitOverride()
    .configureOutput({
      writeOut: (text) => deps.stdout.write(text),
      writeErr: (text) => deps.stderr.write(text),
    })
    .addHelpText(
      "after",
      "\nExit codes: 0 done, 1 wrong use or something in the way, 2 input that cannot be used, 3 no answer, 4 a report does not hold.",
    );
  addCompute(program, deps, end);
  addTrial(program, deps, end);
  addKeys(program, deps, end);
  addServe(program, deps, end);
  addKeeping(program, deps, end);
  addStream(program, deps, end);
  return program;
}

function addStream(program: Command, deps: CliDeps, end: (code: Exit) => void): void {
  program
    .command("stream")
    .description("send what instruments write to standard input into a trial, sample by sample")
    .requiredOption("--trial <id>", "the trial")
    .requiredOption("--stream <id>", "the stream, as the Run stage of the app shows it")
    .option("--server <address>", "where Coldproof is", "http://127.0.0.1:4780")
    .option(
      "--key <key>",
      "the device's key, else COLDPROOF_KEY; none is needed on the same machine",
    )
    .option("--every <seconds>", "send what came in so many seconds as one batch", "1")
    .action(async (options: StreamOptions) => {
      end(await stream(deps, options));
    });
}

const systems: readonly UnitSystem[] = ["as-typed", "si", "us"];
const trialHelp = "its id, or the beginning of it";
const outHelp = "write there instead of to standard output";
const dataHelp =
  "the log: a file or postgres://…, else DATABASE_URL, else COLDPROOF_DATA, else var/coldproof.sqlite in the checkout";

function addServe(program: Command, deps: CliDeps, end: (code: Exit) => void): void {
  program
    .command("serve")
    .description("serve the app, on this machine unless told otherwise")
    .option("--port <number>", "port, else PORT, else 4780 or the next free one")
    .option("--data <file>", dataHelp)
    .option("--lan", "also for paired devices in this network; shows a code to pair one")
    .option("--host <address>", "listen on this address; devices need to be paired")
    .option("--address <url>", "where devices reach the server, when a proxy stands before it")
    .option("--behind-proxy", "a proxy of ours sets X-Forwarded-For")
    .option("--cert <file>", "certificate in PEM, for https; with --key")
    .option("--key <file>", "its private key in PEM")
    .action(async (options: ServeOptions) => {
      end(await serve(deps, options));
    });
}

/** Backup, integrity, workspaces: what keeps a log and who may open it. */
function addKeeping(program: Command, deps: CliDeps, end: (code: Exit) => void): void {
  program
    .command("backup")
    .description("write everything to one file and look at it; others may write on meanwhile")
    .argument("<file>", "*.sqlite: a copy of SQLite's file; any other name: JSON lines")
    .option("--data <file>", dataHelp)
    .action(async (file: string, options: { data?: string }) => {
      end(await backup(deps, file, options));
    });
  program
    .command("restore")
    .description("add what a backup holds and the log does not; changes and removes nothing")
    .argument("<file>")
    .option("--data <file>", dataHelp)
    .action(async (file: string, options: { data?: string }) => {
      end(await restore(deps, file, options));
    });
  program
    .command("log")
    .description("look after the log")
    .command("verify")
    .description("recompute the chain of every trial")
    .option("--data <file>", dataHelp)
    .action(async (options: { data?: string }) => {
      end(await verifyLog(deps, options));
    });
  addWorkspaces(program, deps, end);
}

function addWorkspaces(program: Command, deps: CliDeps, end: (code: Exit) => void): void {
  const workspace = program.command("workspace").description("shops that share a server");
  workspace
    .command("create")
    .description("make one and show the code that pairs its owner")
    .argument("<name>")
    .option("--address <url>", "where devices reach the server, for the link")
    .option("--data <file>", dataHelp)
    .action(async (name: string, options: WorkspaceOptions) => {
      end(await createWorkspace(deps, name, options));
    });
  workspace
    .command("list")
    .option("--data <file>", dataHelp)
    .action(async (options: WorkspaceOptions) => {
      end(await listWorkspaces(deps, options));
    });
  workspace
    .command("pair")
    .description("show a code that pairs one more device, also for an owner who lost his")
    .argument("<id>")
    .addOption(new Option("--role <role>").choices(roles).default("owner"))
    .option("--address <url>", "where devices reach the server, for the link")
    .option("--data <file>", dataHelp)
    .action(async (id: string, options: WorkspaceOptions & { role: Role }) => {
      end(await pairDevice(deps, id, options));
    });
}

function addCompute(program: Command, deps: CliDeps, end: (code: Exit) => void): void {
  program
    .command("compute")
    .description("compute one thing; without a name: list what there is")
    .argument("[name]", "the calculation; alone: describe it")
    .option("--json <text>", "one request, as JSON")
    .option("--lines", "one JSON request a line from standard input, one line of JSON for each")
    .action(async (name: string | undefined, options: { json?: string; lines?: boolean }) => {
      end(await compute(deps, name, options));
    });
}

function compute(
  deps: CliDeps,
  name: string | undefined,
  { json, lines }: { json?: string; lines?: boolean },
): Promise<Exit> {
  if (json !== undefined && lines === true) return fail(deps, "use --json or --lines, not both.");
  if (name === undefined) {
    const asked = json !== undefined || lines === true;
    return asked
      ? fail(deps, "name a calculation. See: coldproof compute")
      : listCalculations(deps);
  }
  if (json !== undefined) return computeOne(deps, name, json);
  return lines === true ? computeLines(deps, name) : describeCalculation(deps, name);
}

function addTrial(program: Command, deps: CliDeps, end: (code: Exit) => void): void {
  const trial = program.command("trial").description("list, take in, give out and report trials");
  trial
    .command("list")
    .description("list the trials in the log")
    .option("--json", "as JSON")
    .option("--data <file>", dataHelp)
    .action(async (options: { data?: string; json?: boolean }) => {
      end(await listTrials(deps, options));
    });
  trial
    .command("import")
    .description("take in an export; doing it again changes nothing")
    .argument("<file>")
    .option("--data <file>", dataHelp)
    .action(async (file: string, options: { data?: string }) => {
      end(await importTrial(deps, file, options));
    });
  addPublish(trial, deps, end);
  addCombine(trial, deps, end);
}

/** What leaves the shop: trial files, tables and reports, and the check of them. */
function addPublish(trial: Command, deps: CliDeps, end: (code: Exit) => void): void {
  trial
    .command("export")
    .description("give out a trial as one file, or as tables")
    .argument("<trial>", trialHelp)
    .option("--tables <folder>", "log, readings, runs and masses as CSV, with a data dictionary")
    .option("--redact <list>", redactHelp)
    .option("--hide <words>", hideHelp)
    .option("--out <file>", outHelp)
    .option("--data <file>", dataHelp)
    .action(async (id: string, options: ExportOptions) => {
      end(await exportTo(deps, id, options));
    });
  trial
    .command("report")
    .description("write a trial's report, one self-contained HTML file that carries its log")
    .argument("<trial>", trialHelp)
    .addOption(
      new Option("--units <system>", "how to show numbers").choices(systems).default("as-typed"),
    )
    .option("--sign <file>", "sign it with the key in this file; see: coldproof key make")
    .option("--redact <list>", redactHelp)
    .option("--hide <words>", hideHelp)
    .option("--out <file>", outHelp)
    .option("--data <file>", dataHelp)
    .action(async (id: string, options: ReportOptions) => {
      end(await reportTo(deps, id, options));
    });
  trial
    .command("verify")
    .description("work a report out again from its own readings; exit code 4 when it does not hold")
    .argument("<file>", "a report, as HTML")
    .option("--json", "as JSON")
    .action(async (file: string, options: { json?: boolean }) => {
      end(await verifyFile(deps, file, options));
    });
}

/** Several trials of one product. */
function addCombine(trial: Command, deps: CliDeps, end: (code: Exit) => void): void {
  trial
    .command("combine")
    .description("several exported trials of one product: mean effect, and how much trials differ")
    .argument("<files...>", "trials as they were exported, two or more")
    .option("--json", "as JSON")
    .action(async (files: string[], options: { json?: boolean }) => {
      end(await combineFiles(deps, files, options));
    });
}

function addKeys(program: Command, deps: CliDeps, end: (code: Exit) => void): void {
  const key = program.command("key").description("keys that sign reports");
  key
    .command("make")
    .description("make a key in a new file that only you can read, and show its public part")
    .argument("<file>")
    .action(async (file: string) => {
      end(await makeKey(deps, file));
    });
  key
    .command("show")
    .description("show the public part, which others know your reports by")
    .argument("<file>")
    .action(async (file: string) => {
      end(await showKey(deps, file));
    });
}
