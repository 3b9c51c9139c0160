// Words to SI and back, at the edges only: units with exact factors, what people type, what people read.
// Must never know: fluids, vehicles, readings' meaning. Basis: SI, absolute pressure, per kg.
export {
  type Dimension,
  dimensions,
  isUnit,
  isUnitId,
  type Reference,
  siUnit,
  type Unit,
  unitById,
  unitsOf,
} from "./table.ts";
export { convert, fromSI, type Quantity, toSI, unitSize } from "./convert.ts";
export { type Invalid, type ParsedNumber, parseNumber } from "./number.ts";
export { type ParsedQuantity, parseQuantity } from "./parse.ts";
export {
  formatDifference,
  formatNumber,
  formatQuantity,
  formatValue,
  formatWithUncertainty,
  MINUS,
  THIN_SPACE,
} from "./format.ts";
