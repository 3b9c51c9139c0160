import { z } from "zod";
import { parseJson, type WireIssue } from "../wire/index.ts";
import type { CliDeps } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { type Line, linesOf, longestLine } from "./lines.ts";
import { outputOn } from "./output.ts";

type ComputeDeps = Pick<CliDeps, "calculations" | "compute">;
interface Reply {
  readonly code: Exit;
  readonly text: string;
}

/** One request from JSON text to one line of JSON. Never throws for bad input. */
function reply(deps: ComputeDeps, name: string, text: string): Reply {
  const json = parseJson(text, "input");
  if (json.kind === "invalid") return invalid(json.issues);
  const outcome = deps.compute(name, json.value);
  switch (outcome.kind) {
    case "answer": {
      const { result, uncertainty, cautions, sources, assumptions } = outcome;
      const answer = { result, uncertainty, cautions, sources, assumptions };
      return { code: exit.done, text: JSON.stringify(answer) };
    }
    case "invalid":
      return invalid(outcome.issues);
    case "no-answer":
      return { code: exit.noAnswer, text: JSON.stringify({ error: outcome }) };
  }
}

function invalid(issues: readonly WireIssue[]): Reply {
  return { code: exit.invalid, text: JSON.stringify({ error: { kind: "invalid", issues } }) };
}

/** `compute NAME --json TEXT` */
export async function computeOne(deps: CliDeps, name: string, text: string): Promise<Exit> {
  const answer = unknownName(deps, name) ?? reply(deps, name, text);
  await outputOn(deps.stdout).write(`${answer.text}\n`);
  return answer.code;
}

/** `compute NAME --lines`: as many lines out as in, in order, each before the next is read. */
export async function computeLines(deps: CliDeps, name: string): Promise<Exit> {
  const output = outputOn(deps.stdout);
  const unknown = unknownName(deps, name);
  if (unknown !== undefined) {
    await output.write(`${unknown.text}\n`);
    return unknown.code;
  }
  for await (const line of linesOf(deps.stdin)) {
    if (!(await output.write(`${lineReply(deps, name, line).text}\n`))) break;
  }
  return exit.done;
}

function lineReply(deps: ComputeDeps, name: string, line: Line): Reply {
  if (line.kind === "line") return reply(deps, name, line.text);
  const accepted = `at most ${longestLine} bytes in a line`;
  return invalid([{ field: "input", value: "a longer line", accepted }]);
}

function unknownName({ calculations }: ComputeDeps, name: string): Reply | undefined {
  if (calculations.some((offered) => offered.name === name)) return undefined;
  const accepted = `one of: ${calculations.map((offered) => offered.name).join(", ")}`;
  return invalid([{ field: "name", value: name, accepted }]);
}

/** `compute`: what there is. */
export async function listCalculations({ calculations, stdout }: CliDeps): Promise<Exit> {
  const width = Math.max(0, ...calculations.map(({ name }) => name.length));
  const lines = calculations.map(({ name, title }) => `${name.padEnd(width)}  ${title}\n`);
  await outputOn(stdout).write(lines.join(""));
  return exit.done;
}

/** `compute NAME`: what it takes, what it gives, what to beware of and where it comes from. */
export async function describeCalculation(deps: CliDeps, name: string): Promise<Exit> {
  const output = outputOn(deps.stdout);
  const offered = deps.calculations.find((candidate) => candidate.name === name);
  const unknown = unknownName(deps, name);
  if (offered === undefined) {
    await output.write(`${unknown?.text ?? ""}\n`);
    return exit.invalid;
  }
  const { title, cautions, sources } = offered;
  const description = {
    name,
    title,
    input: z.toJSONSchema(offered.input, { io: "input", unrepresentable: "any" }),
    output: z.toJSONSchema(offered.output, { io: "output", unrepresentable: "any" }),
    cautions,
    sources,
  };
  await output.write(`${JSON.stringify(description, null, 2)}\n`);
  return exit.done;
}
