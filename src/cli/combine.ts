import { readFile } from "node:fs/promises";
import { parseJson } from "../wire/index.ts";
import type { CliDeps } from "./deps.ts";
import { computeOne } from "./compute.ts";
import { exit, type Exit } from "./exit.ts";
import { outputOn } from "./output.ts";
import { fail } from "./trial.ts";

/** What the words below read of an answer of `combine-trials`. */
interface Group {
  readonly product: string;
  readonly label: string;
  readonly condition: string;
  readonly form: string;
  readonly trials: readonly {
    readonly name: string;
    readonly effect: number;
    readonly u: number;
    readonly weight?: number;
  }[];
  readonly summary?: {
    readonly mean: number;
    readonly interval: { readonly from: number; readonly to: number };
    readonly tau: number;
    readonly heterogeneity: number;
    readonly prediction?: { readonly from: number; readonly to: number };
  };
  readonly verdict?: string;
}

/** `trial combine FILES…`: several exported trials of one product together. */
export async function combineFiles(
  deps: CliDeps,
  files: readonly string[],
  options: { readonly json?: boolean },
): Promise<Exit> {
  const trials: unknown[] = [];
  for (const file of files) {
    let text: string;
    try {
      text = await readFile(file, "utf8");
    } catch {
      return fail(deps, `${file} cannot be read. Check its name.`);
    }
    const json = parseJson(text, file);
    if (json.kind === "invalid") {
      await fail(deps, `${file} is no exported trial.`);
      return exit.invalid;
    }
    trials.push(json.value);
  }
  if (options.json === true) return computeOne(deps, "combine-trials", JSON.stringify({ trials }));
  const answer = deps.compute("combine-trials", { trials });
  if (answer.kind === "answer") {
    // The calculation's own schema is tested to be what its result is.
    const { groups, leftOut } = answer.result as { groups: Group[]; leftOut: string[] };
    const left = leftOut.map((sentence) => `Left out: ${sentence}\n`);
    await outputOn(deps.stdout).write([...groups.map(wordsOf), ...left].join(""));
    return exit.done;
  }
  const [first] = answer.kind === "invalid" ? answer.issues : [];
  await fail(
    deps,
    answer.kind === "no-answer"
      ? answer.message
      : `these trials cannot be combined: ${first?.field ?? "input"} should be ${first?.accepted ?? "trials"}.`,
  );
  return answer.kind === "no-answer" ? exit.noAnswer : exit.invalid;
}

const K = (value: number): string => `${value >= 0 ? "+" : "−"}${Math.abs(value).toFixed(2)}`;
const between = ({ from, to }: { readonly from: number; readonly to: number }): string =>
  `${K(from)} to ${K(to)} K`;

function wordsOf({ product, label, condition, form, trials, summary, verdict }: Group): string {
  const lines = [
    `${product} minus ${label}, vent, ${condition}, ${form}, in equal conditions`,
    ...trials.map(({ name, effect, u, weight }) => {
      const share = weight === undefined ? "" : `, weight ${(100 * weight).toFixed(0)} %`;
      return `  ${K(effect)} ± ${(1.96 * u).toFixed(2)} K  ${name}${share}`;
    }),
  ];
  if (!summary) return `${[...lines, "  One trial: nothing to combine."].join("\n")}\n`;
  const { mean, interval, tau, heterogeneity, prediction } = summary;
  const scatter = `between trials ${tau.toFixed(2)} K, ${(100 * heterogeneity).toFixed(0)} % of the scatter`;
  lines.push(`  Mean ${K(mean)} K, 95 % ${between(interval)}; ${scatter}`);
  if (prediction) lines.push(`  One more trial would lie at ${between(prediction)} (95 %)`);
  if (verdict !== undefined) lines.push(`  ${verdict}`);
  return `${lines.join("\n")}\n`;
}
