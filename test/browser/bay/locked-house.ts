import { openHouse } from "../walk/house.ts";
import { doorkeeper, type Doorkeeper } from "./doorkeeper.ts";

/** A house that asks for keys, and its doorkeeper. */
export async function lockedHouse(app: string): Promise<{ house: string; door: Doorkeeper }> {
  let door: Doorkeeper | undefined;
  let address = "";
  const house = await openHouse(app, (handle) => {
    door = doorkeeper(handle, () => address);
    return door.handle;
  });
  address = house;
  if (!door) throw new RangeError("the house has no door");
  return { house, door };
}

/** One more device, which posts under its key and is heard. */
export async function senderTo(house: string, door: Doorkeeper) {
  const post = async (path: string, body: unknown, key = ""): Promise<unknown> => {
    const headers = { "content-type": "application/json", authorization: `Bearer ${key}` };
    const answer = await fetch(house + path, {
      method: "POST",
      headers,
      body: JSON.stringify(body),
    });
    if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
    return answer.json();
  };
  const pairing = { code: door.offer("tester"), device: "logger" };
  const { key } = (await post("/api/pairings/redeem", pairing)) as { key: string };
  return (path: string, body: unknown) => post(path, body, key);
}
