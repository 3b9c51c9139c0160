import { fluidFiles } from "./fluid-files.ts";
import { parseFluidFile } from "./fluid-file.ts";
import { fluidIds, type FluidId } from "./fluid-id.ts";
import { buildPureFluid } from "./build-fluid.ts";
import type { FluidInfo, PureFluid } from "./pure-fluid.ts";
import { parseSaturationFile } from "./saturation-file.ts";

/** Built fluids. They never change, so a cache changes nothing but the time. */
const built = new Map<FluidId, PureFluid>();

/**
 * A pure fluid by its designation; built at the first request.
 *
 * @throws  RangeError for a designation that is not in `fluidIds`: the caller's bug.
 *
 * Cost: a few milliseconds at first, then a look-up.
 */
export function fluid(id: FluidId): PureFluid {
  const known = built.get(id);
  if (known) return known;
  if (!fluidIds.includes(id)) throw new RangeError(`no fluid ${id as string}`);
  const files = fluidFiles[id];
  const fresh = buildPureFluid(
    id,
    parseFluidFile(files.equation),
    parseSaturationFile(files.saturation),
  );
  built.set(id, fresh);
  return fresh;
}

/** Constants, limits and source of a fluid. */
export function fluidInfo(id: FluidId): FluidInfo {
  return fluid(id).info;
}
