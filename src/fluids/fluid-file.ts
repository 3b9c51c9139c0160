import type { IdealTerm } from "./ideal.ts";
import { columnsOf, numberAt, recordAt, recordsAt, textAt, type Place } from "./json-place.ts";
import type { GaussianTerm, NonAnalyticTerm, PowerTerm, ResidualTerm } from "./residual-term.ts";

/** Content of data/fluids/<id>.json that the room uses. K, Pa, mol/m³, J/(mol K), kg/mol. */
export interface FluidFile {
  readonly id: string;
  readonly name: string;
  readonly ashrae: string;
  readonly molarMass: number;
  readonly gasConstant: number;
  readonly acentric: number;
  readonly critical: { readonly T: number; readonly p: number; readonly rho: number };
  readonly reducing: { readonly T: number; readonly rho: number };
  readonly validity: { readonly Tmin: number; readonly Tmax: number; readonly pmax: number };
  readonly ideal: readonly IdealTerm[];
  readonly referenceOffset: { readonly a1: number; readonly a2: number };
  readonly residual: readonly ResidualTerm[];
  readonly ancillaries: {
    readonly psat: Ancillary;
    readonly rhoLsat: Ancillary;
    readonly rhoVsat: Ancillary;
  };
  readonly source: string;
}

/** A rough equation for a saturation property; starting values only. */
export interface Ancillary {
  readonly type: "exp_tau" | "exp" | "oneplus";
  readonly n: readonly number[];
  readonly t: readonly number[];
  readonly Tred: number;
  readonly reducingValue: number;
}

const schema = "helmholtz-fluid/1";

/**
 * Reads a fluid file.
 *
 * @param value  The parsed JSON, unknown so far.
 * @throws       Error naming the path, what was found and what is accepted: a bad data file is a
 *               fault of this package, not of its user.
 */
export function parseFluidFile(value: unknown): FluidFile {
  const root = recordAt({ path: "", value });
  const found = textAt(root("schema"));
  if (found !== schema) throw new Error(`schema: found ${found}, accepted ${schema}`);
  const ideal = recordAt(root("idealGas"));
  const offset = recordAt(ideal("referenceOffset"));
  const ancillaries = recordAt(root("ancillaries"));
  return {
    id: textAt(root("id")),
    name: textAt(root("name")),
    ashrae: textAt(root("ashrae")),
    molarMass: positiveAt(root("molarMass")),
    gasConstant: positiveAt(root("gasConstant")),
    acentric: numberAt(root("acentric")),
    ...parsePoints(root),
    ideal: parseIdeal(ideal("terms")),
    referenceOffset: { a1: numberAt(offset("a1")), a2: numberAt(offset("a2")) },
    residual: parseResidual(root("residual")),
    ancillaries: {
      psat: parseAncillary(ancillaries("psat")),
      rhoLsat: parseAncillary(ancillaries("rhoLsat")),
      rhoVsat: parseAncillary(ancillaries("rhoVsat")),
    },
    source: recordsAt(root("reference"))
      .map((reference) => textAt(recordAt(reference)("text")))
      .join("; "),
  };
}

function parsePoints(
  root: (key: string) => Place,
): Pick<FluidFile, "critical" | "reducing" | "validity"> {
  const critical = recordAt(root("critical"));
  const reducing = recordAt(root("reducing"));
  const validity = recordAt(root("validity"));
  return {
    critical: {
      T: positiveAt(critical("T")),
      p: positiveAt(critical("p")),
      rho: positiveAt(critical("rhomolar")),
    },
    reducing: { T: positiveAt(reducing("T")), rho: positiveAt(reducing("rhomolar")) },
    validity: {
      Tmin: positiveAt(validity("Tmin")),
      Tmax: positiveAt(validity("Tmax")),
      pmax: positiveAt(validity("pmax")),
    },
  };
}

/**
 * Reads a list of residual terms; also those of a departure function.
 *
 * `power` and `powerG` become power terms with g or m filled in, `gergExponential` a gaussian
 * with a linear part: exp(−β(δ−γ)) = exp(βγ)·exp(−βδ).
 */
export function parseResidual(place: Place): readonly ResidualTerm[] {
  return recordsAt(place).map((term) => {
    const type = textAt(recordAt(term)("type"));
    switch (type) {
      case "power":
      case "powerG":
      case "powerExpTau":
        return parsePower(term, type);
      case "gaussian":
      case "gergExponential":
        return parseGaussian(term, type);
      case "nonAnalytic":
        return parseNonAnalytic(term);
      default:
        throw new Error(`${term.path}.type: found ${type}, not a known residual term`);
    }
  });
}

function parsePower(term: Place, type: "power" | "powerG" | "powerExpTau"): PowerTerm {
  const { n, d, t, l } = columnsOf(term, ["n", "d", "t", "l"] as const);
  wholeNumbers(term, "d", d);
  wholeNumbers(term, "l", l);
  const g = type === "powerG" ? columnsOf(term, ["n", "g"] as const).g : n.map(() => 1);
  const m = type === "powerExpTau" ? columnsOf(term, ["n", "m"] as const).m : n.map(() => 0);
  return { type: "power", n, d, t, l, g, m };
}

function parseGaussian(term: Place, type: "gaussian" | "gergExponential"): GaussianTerm {
  const keys = ["n", "d", "t", "eta", "epsilon", "beta", "gamma"] as const;
  const columns = columnsOf(term, keys);
  wholeNumbers(term, "d", columns.d);
  const { n, beta, gamma } = columns;
  const zero = n.map(() => 0);
  if (type === "gaussian") return { ...columns, type, lambda: zero };
  const scaled = n.map((value, k) => value * Math.exp(beta[k] * gamma[k]));
  return { ...columns, type: "gaussian", n: scaled, lambda: beta, beta: zero, gamma: zero };
}

function parseNonAnalytic(term: Place): NonAnalyticTerm {
  const keys = ["n", "a", "b", "beta", "A", "B", "C", "D"] as const;
  const columns = columnsOf(term, keys);
  // The third derivative in density is finite at the critical density only then.
  if (columns.beta.some((beta) => beta >= 1 / 3) || columns.a.some((a) => a < 1.5)) {
    throw new Error(`${term.path}: accepted are beta < 1/3 and a ≥ 1.5`);
  }
  return { ...columns, type: "nonAnalytic" };
}

function parseIdeal(place: Place): readonly IdealTerm[] {
  const terms = recordsAt(place).map(parseIdealTerm);
  if (terms.filter((term) => term.type === "lead").length !== 1) {
    throw new Error(`${place.path}: exactly one lead term is accepted`);
  }
  return terms;
}

function parseIdealTerm(term: Place): IdealTerm {
  const at = recordAt(term);
  const type = textAt(at("type"));
  switch (type) {
    case "lead":
      return { type, a1: numberAt(at("a1")), a2: numberAt(at("a2")) };
    case "logTau":
      return { type, a: numberAt(at("a")) };
    case "power":
      return { type, ...columnsOf(term, ["n", "t"] as const) };
    case "planckEinstein":
      return { type, ...columnsOf(term, ["n", "theta"] as const) };
    default:
      throw new Error(`${term.path}.type: found ${type}, not a known ideal-gas term`);
  }
}

function parseAncillary(place: Place): Ancillary {
  const at = recordAt(place);
  const type = textAt(at("type"));
  if (type !== "exp_tau" && type !== "exp" && type !== "oneplus") {
    throw new Error(`${place.path}.type: found ${type}, accepted exp_tau, exp, oneplus`);
  }
  return {
    type,
    ...columnsOf(place, ["n", "t"] as const),
    Tred: positiveAt(at("Tred")),
    reducingValue: positiveAt(at("reducingValue")),
  };
}

function positiveAt(place: Place): number {
  const value = numberAt(place);
  if (value <= 0) throw new Error(`${place.path}: found ${value}, accepted a positive number`);
  return value;
}

/** The kernel multiplies powers of δ up one by one. */
function wholeNumbers(place: Place, key: string, column: readonly number[]): void {
  if (column.some((value) => !Number.isInteger(value) || value < 0 || value > 30)) {
    throw new Error(`${place.path}.${key}: accepted are whole numbers from 0 to 30`);
  }
}
