/** The pure fluids of this room, by the designation of their data file. */
export const fluidIds = [
  "R12",
  "R22",
  "R32",
  "R40",
  "R124",
  "R125",
  "R134a",
  "R142b",
  "R143a",
  "R152a",
  "R170",
  "R218",
  "R227ea",
  "R290",
  "R600",
  "R600a",
  "R601",
  "R601a",
  "R718",
  "R728",
  "R732",
  "R740",
  "R744",
  "R1123",
  "R1132a",
  "R1132(E)",
  "R1234yf",
  "R1234ze(E)",
  "R1270",
  "R1336mzz(Z)",
  "R13I1",
  "RE170",
] as const;

export type FluidId = (typeof fluidIds)[number];

/** Whether a text is the designation of a fluid, spelled as in {@link fluidIds}. */
export function isFluidId(text: string): text is FluidId {
  return (fluidIds as readonly string[]).includes(text);
}

/** Name of the data files of a fluid, without extension: the designation without brackets. */
export function fileStem(id: FluidId): string {
  return id.replaceAll(/[()]/g, "");
}
