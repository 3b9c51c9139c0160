import type { FluidId } from "./fluid-id.ts";
import equationR12 from "../../data/fluids/R12.json";
import equationR22 from "../../data/fluids/R22.json";
import equationR32 from "../../data/fluids/R32.json";
import equationR40 from "../../data/fluids/R40.json";
import equationR124 from "../../data/fluids/R124.json";
import equationR125 from "../../data/fluids/R125.json";
import equationR134a from "../../data/fluids/R134a.json";
import equationR142b from "../../data/fluids/R142b.json";
import equationR143a from "../../data/fluids/R143a.json";
import equationR152a from "../../data/fluids/R152a.json";
import equationR170 from "../../data/fluids/R170.json";
import equationR218 from "../../data/fluids/R218.json";
import equationR227ea from "../../data/fluids/R227ea.json";
import equationR290 from "../../data/fluids/R290.json";
import equationR600 from "../../data/fluids/R600.json";
import equationR600a from "../../data/fluids/R600a.json";
import equationR601 from "../../data/fluids/R601.json";
import equationR601a from "../../data/fluids/R601a.json";
import equationR718 from "../../data/fluids/R718.json";
import equationR728 from "../../data/fluids/R728.json";
import equationR732 from "../../data/fluids/R732.json";
import equationR740 from "../../data/fluids/R740.json";
import equationR744 from "../../data/fluids/R744.json";
import equationR1123 from "../../data/fluids/R1123.json";
import equationR1132a from "../../data/fluids/R1132a.json";
import equationR1132E from "../../data/fluids/R1132E.json";
import equationR1234yf from "../../data/fluids/R1234yf.json";
import equationR1234zeE from "../../data/fluids/R1234zeE.json";
import equationR1270 from "../../data/fluids/R1270.json";
import equationR1336mzzZ from "../../data/fluids/R1336mzzZ.json";
import equationR13I1 from "../../data/fluids/R13I1.json";
import equationRE170 from "../../data/fluids/RE170.json";
import saturationR12 from "../../data/saturation/R12.json";
import saturationR22 from "../../data/saturation/R22.json";
import saturationR32 from "../../data/saturation/R32.json";
import saturationR40 from "../../data/saturation/R40.json";
import saturationR124 from "../../data/saturation/R124.json";
import saturationR125 from "../../data/saturation/R125.json";
import saturationR134a from "../../data/saturation/R134a.json";
import saturationR142b from "../../data/saturation/R142b.json";
import saturationR143a from "../../data/saturation/R143a.json";
import saturationR152a from "../../data/saturation/R152a.json";
import saturationR170 from "../../data/saturation/R170.json";
import saturationR218 from "../../data/saturation/R218.json";
import saturationR227ea from "../../data/saturation/R227ea.json";
import saturationR290 from "../../data/saturation/R290.json";
import saturationR600 from "../../data/saturation/R600.json";
import saturationR600a from "../../data/saturation/R600a.json";
import saturationR601 from "../../data/saturation/R601.json";
import saturationR601a from "../../data/saturation/R601a.json";
import saturationR718 from "../../data/saturation/R718.json";
import saturationR728 from "../../data/saturation/R728.json";
import saturationR732 from "../../data/saturation/R732.json";
import saturationR740 from "../../data/saturation/R740.json";
import saturationR744 from "../../data/saturation/R744.json";
import saturationR1123 from "../../data/saturation/R1123.json";
import saturationR1132a from "../../data/saturation/R1132a.json";
import saturationR1132E from "../../data/saturation/R1132E.json";
import saturationR1234yf from "../../data/saturation/R1234yf.json";
import saturationR1234zeE from "../../data/saturation/R1234zeE.json";
import saturationR1270 from "../../data/saturation/R1270.json";
import saturationR1336mzzZ from "../../data/saturation/R1336mzzZ.json";
import saturationR13I1 from "../../data/saturation/R13I1.json";
import saturationRE170 from "../../data/saturation/RE170.json";

/** The data files of every fluid, not yet validated: the equation and its saturation expansions. */
export const fluidFiles: Readonly<
  Record<FluidId, { readonly equation: unknown; readonly saturation: unknown }>
> = {
  R12: { equation: equationR12, saturation: saturationR12 },
  R22: { equation: equationR22, saturation: saturationR22 },
  R32: { equation: equationR32, saturation: saturationR32 },
  R40: { equation: equationR40, saturation: saturationR40 },
  R124: { equation: equationR124, saturation: saturationR124 },
  R125: { equation: equationR125, saturation: saturationR125 },
  R134a: { equation: equationR134a, saturation: saturationR134a },
  R142b: { equation: equationR142b, saturation: saturationR142b },
  R143a: { equation: equationR143a, saturation: saturationR143a },
  R152a: { equation: equationR152a, saturation: saturationR152a },
  R170: { equation: equationR170, saturation: saturationR170 },
  R218: { equation: equationR218, saturation: saturationR218 },
  R227ea: { equation: equationR227ea, saturation: saturationR227ea },
  R290: { equation: equationR290, saturation: saturationR290 },
  R600: { equation: equationR600, saturation: saturationR600 },
  R600a: { equation: equationR600a, saturation: saturationR600a },
  R601: { equation: equationR601, saturation: saturationR601 },
  R601a: { equation: equationR601a, saturation: saturationR601a },
  R718: { equation: equationR718, saturation: saturationR718 },
  R728: { equation: equationR728, saturation: saturationR728 },
  R732: { equation: equationR732, saturation: saturationR732 },
  R740: { equation: equationR740, saturation: saturationR740 },
  R744: { equation: equationR744, saturation: saturationR744 },
  R1123: { equation: equationR1123, saturation: saturationR1123 },
  R1132a: { equation: equationR1132a, saturation: saturationR1132a },
  "R1132(E)": { equation: equationR1132E, saturation: saturationR1132E },
  R1234yf: { equation: equationR1234yf, saturation: saturationR1234yf },
  "R1234ze(E)": { equation: equationR1234zeE, saturation: saturationR1234zeE },
  R1270: { equation: equationR1270, saturation: saturationR1270 },
  "R1336mzz(Z)": { equation: equationR1336mzzZ, saturation: saturationR1336mzzZ },
  R13I1: { equation: equationR13I1, saturation: saturationR13I1 },
  RE170: { equation: equationRE170, saturation: saturationRE170 },
};
