import { buildPureFluid, infoOf } from "./build-fluid.ts";
import { fluidFiles } from "./fluid-files.ts";
import { parseFluidFile, type FluidFile } from "./fluid-file.ts";
import { fluidIds, type FluidId } from "./fluid-id.ts";
import type { FluidInfo, PureFluid } from "./pure-fluid.ts";
import { parseSaturationFile } from "./saturation-file.ts";

// What was read and built never changes, so keeping it changes nothing but the time.
const read = new Map<FluidId, FluidFile>();
const built = new Map<FluidId, PureFluid>();

/**
 * A pure fluid by its designation; built at the first request.
 *
 * @throws  RangeError for a designation that is not in `fluidIds`: the caller's bug.
 *
 * Cost: a few milliseconds at first, then a look-up.
 */
export function fluid(id: FluidId): PureFluid {
  return keep(built, id, () =>
    buildPureFluid(id, fileOf(id), parseSaturationFile(fluidFiles[id].saturation)),
  );
}

/**
 * Constants, limits and source of a fluid.
 *
 * @throws  RangeError for a designation that is not in `fluidIds`: the caller's bug.
 */
export function fluidInfo(id: FluidId): FluidInfo {
  return infoOf(id, fileOf(id));
}

function fileOf(id: FluidId): FluidFile {
  if (!fluidIds.includes(id)) throw new RangeError(`no fluid ${id as string}`);
  return keep(read, id, () => parseFluidFile(fluidFiles[id].equation));
}

function keep<Value>(store: Map<FluidId, Value>, id: FluidId, make: () => Value): Value {
  const known = store.get(id);
  if (known) return known;
  const fresh = make();
  store.set(id, fresh);
  return fresh;
}
