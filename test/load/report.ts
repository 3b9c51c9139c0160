import { readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "../kill/bundle.ts";

const file = join(root, "data/demonstration/hill-town.json");
const { trial } = JSON.parse(readFileSync(file, "utf8")) as { trial: string };

/** Takes the demonstration in (only the first time does it change anything), and has its report written. */
export async function writeReport(port: number, key: string): Promise<void> {
  const ask = async (path: string, more: RequestInit) => {
    const headers = { authorization: `Bearer ${key}`, "content-type": "application/json" };
    const answer = await fetch(`http://127.0.0.1:${port}${path}`, { ...more, headers });
    const text = await answer.text();
    if (answer.status !== 200) throw new Error(`${path}: ${answer.status} ${text}`);
  };
  await ask("/api/trials/import", { method: "POST", body: readFileSync(file) });
  await ask(`/api/trials/${trial}/report`, {});
}
