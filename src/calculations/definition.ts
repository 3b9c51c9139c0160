import { z } from "zod";
import type { LocalAir } from "../service/index.ts";
import type { InvalidInput, NoAnswer } from "./answer.ts";
import { airFields } from "./air-fields.ts";
import type { Fields, ValuesOf } from "./field.ts";

/** What `run` gives back; `compute` adds what belongs to every answer of the calculation. */
export type Outcome<Result> =
  | {
      readonly kind: "answer";
      readonly result: Result;
      readonly uncertainty?: Readonly<Record<string, number>>;
      /** Beside those of the definition. */
      readonly cautions?: readonly string[];
      readonly sources?: readonly string[];
      readonly assumptions?: readonly string[];
    }
  | InvalidInput
  | NoAnswer;

/** A computation offered to a user: in the app, by HTTP, from a terminal, as a function. */
export interface Calculation {
  readonly name: string;
  readonly title: string;
  /** Shape of the input: SI numbers, or texts with units. */
  readonly input: z.ZodType;
  /** Shape of `result`. */
  readonly output: z.ZodType;
  readonly cautions: readonly string[];
  readonly sources: readonly string[];
  readonly fields: Fields;
  /** @param values By field, read and in SI. */
  run(values: Readonly<Record<string, unknown>>, air: LocalAir): Outcome<unknown>;
}

type AllValues<F extends Fields> = ValuesOf<F & typeof airFields>;

/**
 * Defines a calculation once. `altitude` and `barometer` are added to the fields of every one.
 *
 * @param definition `fields` become the input schema; `run` gets their values in SI and the local air.
 */
export function defineCalculation<F extends Fields, Output extends z.ZodType>(definition: {
  readonly name: string;
  readonly title: string;
  readonly fields: F;
  readonly output: Output;
  readonly cautions: readonly string[];
  readonly sources: readonly string[];
  run(values: AllValues<F>, air: LocalAir): Outcome<z.infer<Output>>;
}): Calculation {
  const fields: Fields = { ...definition.fields, ...airFields };
  const shape = Object.fromEntries(
    Object.entries(fields).map(([name, field]) => [name, field.schema]),
  );
  return {
    ...definition,
    fields,
    input: z.strictObject(shape).describe(definition.title),
    // `compute` reads every value with the field of the same name, so the record has the type that F names.
    run: (values, air) => definition.run(values as AllValues<F>, air),
  };
}
