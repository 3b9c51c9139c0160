import { issue, type Issue } from "./answer.ts";
import type { Field, FieldOutcome } from "./field.ts";

/** Collects issues while values are read one by one. */
export class Reader {
  readonly issues: Issue[] = [];
  readonly place: string;
  private readonly air: number;

  constructor(place: string, air: number) {
    this.place = place;
    this.air = air;
  }

  read<T>(field: Field<T>, raw: unknown, key: string): T | undefined {
    if (raw === undefined) return undefined;
    const outcome: FieldOutcome<T> = field.read(raw, `${this.place}.${key}`, this.air);
    if (outcome.kind === "value") return outcome.value;
    this.issues.push(...outcome.issues);
    return undefined;
  }

  /** A standard uncertainty: above zero. */
  uncertainty(raw: number | undefined, key: string): number | undefined {
    if (raw === undefined || (raw > 0 && raw < 1e9)) return raw;
    this.refuse(key, raw, "a standard uncertainty above 0");
    return undefined;
  }

  refuse(key: string, value: unknown, accepted: string): void {
    this.issues.push(issue(`${this.place}.${key}`, value, accepted));
  }
}
