import type { ReadingQuantity } from "../../trial/index.ts";
import type { BandScaleProps } from "./band-scale.tsx";

/** How the band of a quantity is drawn: a vacuum spans decades, and its band ends where water boils. */
export const bandLook = (quantity: ReadingQuantity): Pick<BandScaleProps, "log" | "bandName"> =>
  quantity === "vacuum" ? { log: true, bandName: "Water boils" } : {};
