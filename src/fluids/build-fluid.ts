import type { FluidFile } from "./fluid-file.ts";
import type { FluidId } from "./fluid-id.ts";
import { compileEquation } from "./equation.ts";
import { compileIdeal } from "./ideal.ts";
import type { SaturationFile } from "./saturation-file.ts";
import { caloricExpansions, densitiesAt, xAt, type SaturationModel } from "./saturation-model.ts";
import { evaluateProperties, H, S } from "./properties.ts";
import type { FluidInfo, PureFluid, SupercriticalGuide } from "./pure-fluid.ts";
import { createStateWork } from "./state-work.ts";
import { supercriticalGuide } from "./supercritical-guide.ts";

/** Enthalpy, J/kg, and entropy, J/(kg K), of saturated liquid at 273.15 K in the IIR convention. */
const iir = { T: 273.15, h: 200e3, s: 1e3 };

/**
 * Builds a fluid from its two files.
 *
 * Fluids whose liquid does not exist at 273.15 K keep the zero of their file.
 *
 * @throws  Error if the files are not those of the fluid: they are part of this package.
 */
export function buildPureFluid(
  id: FluidId,
  file: FluidFile,
  saturation: SaturationFile,
): PureFluid {
  if (file.id !== id || saturation.fluid !== id) {
    throw new Error(`files of ${file.id} and ${saturation.fluid} given for ${id}`);
  }
  const equation = compileEquation(file);
  const work = createStateWork(equation);
  const { states, temperature, critical } = saturation;
  const bare = {
    ...equation,
    info: infoOf(id, file),
    critical,
    saturation: { states, temperature, critical },
    work,
  };
  const offset = referenceOffset(bare, file);
  const ideal = compileIdeal(file.ideal, offset);
  const caloric = caloricExpansions({ ...bare, ideal });
  let guide: SupercriticalGuide | undefined;
  const fluid: PureFluid = {
    ...bare,
    ideal,
    saturation: { ...bare.saturation, ...caloric },
    supercritical: () => (guide ??= supercriticalGuide(fluid)),
  };
  return fluid;
}

/** The offset that gives the IIR state where it exists, else that of the file. */
function referenceOffset(
  bare: Omit<PureFluid, "ideal" | "saturation" | "supercritical"> & {
    readonly saturation: Pick<SaturationModel, "states" | "critical">;
  },
  file: FluidFile,
): { readonly a1: number; readonly a2: number } {
  const { critical, work, R, Tr } = bare;
  if (iir.T < file.validity.Tmin || iir.T >= critical.T) return file.referenceOffset;
  const plain = { ...bare, ideal: compileIdeal(file.ideal, { a1: 0, a2: 0 }) };
  const { rhoL } = densitiesAt(bare.saturation, xAt(bare.saturation, iir.T));
  evaluateProperties(plain, iir.T, rhoL, work);
  const [h, s] = [work.out[H], work.out[S]];
  const M = file.molarMass;
  return { a1: (s - iir.s * M) / R, a2: (iir.h * M - h) / (R * Tr) };
}

/** The part of a file that a reader wants to know. */
export function infoOf(id: FluidId, file: FluidFile): FluidInfo {
  const { name, ashrae, molarMass, gasConstant, critical, acentric, validity, source } = file;
  return {
    id,
    name,
    ashrae,
    M: molarMass,
    R: gasConstant,
    Tc: critical.T,
    pc: critical.p,
    rhoc: critical.rho,
    acentric,
    ...validity,
    source,
  };
}
