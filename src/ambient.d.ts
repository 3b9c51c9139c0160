// Data files enter as `unknown`: the room that reads one validates it before use.
declare module "*.json" {
  const value: unknown;
  export default value;
}

// CSV reader: only the call that is used is declared, so that the core stays free of DOM and Node types.
declare module "papaparse" {
  interface ParseConfig {
    delimiter?: string;
    skipEmptyLines?: boolean | "greedy";
    comments?: string | false;
  }
  interface ParseResult {
    data: string[][];
    errors: { type: string; code: string; message: string; row?: number }[];
    meta: { delimiter: string; linebreak: string };
  }
  const Papa: { parse(text: string, config?: ParseConfig): ParseResult };
  export default Papa;
}

// psychrolib ships no types and one global unit system; only the room `air` may import it.
declare module "psychrolib" {
  const psychrolib: Record<string, ((...values: number[]) => never) | undefined> & {
    SI: number;
    SetUnitSystem(system: number): void;
    [name: string]: unknown;
  };
  export default psychrolib;
}
