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
