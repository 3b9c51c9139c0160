import { v4 } from "uuid";
import { longLog } from "../../scripts/bench-trial.mjs";

/** Takes in a log of so many events, a new one each time. */
export function importLog(count: number) {
  const events = longLog("readings", count);
  const trial = events[0]?.trial ?? "";
  const text = JSON.stringify({ format: "coldproof-trial", version: 1, trial, events });
  let logs = 0;
  return async (port: number, key: string): Promise<void> => {
    const mark = (++logs).toString(16).padStart(3, "0");
    const body = text.replaceAll("-7000-8000-", `-7000-8${mark}-`).replaceAll(trial, v4());
    const answer = await fetch(`http://127.0.0.1:${port}/api/trials/import`, {
      method: "POST",
      headers: { authorization: `Bearer ${key}`, "content-type": "application/json" },
      body,
    });
    const said = await answer.text();
    if (answer.status !== 200) throw new Error(`import: ${answer.status} ${said.slice(0, 200)}`);
  };
}
