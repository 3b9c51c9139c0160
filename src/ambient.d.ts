// Data files enter as `unknown`: the room that reads one validates it before use.
declare module "*.json" {
  const value: unknown;
  export default value;
}

// CSV reader: only the calls that are used are declared, so that the core stays free of DOM and Node types.
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
  const Papa: {
    parse(text: string, config?: ParseConfig): ParseResult;
    unparse(rows: readonly (readonly (string | number | undefined)[])[]): string;
  };
  export default Papa;
}

// psychrolib ships no types and one global unit system; only the room `air` may import it. SI: °C, Pa, J/kg, kg/kg.
declare module "psychrolib" {
  const psychrolib: {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(celsius: number): number;
    GetSatHumRatio(celsius: number, pascal: number): number;
    GetSatAirEnthalpy(celsius: number, pascal: number): number;
    GetHumRatioFromRelHum(celsius: number, relativeHumidity: number, pascal: number): number;
    GetHumRatioFromTWetBulb(celsius: number, wetBulb: number, pascal: number): number;
    GetHumRatioFromTDewPoint(dewPoint: number, pascal: number): number;
    GetRelHumFromHumRatio(celsius: number, humidityRatio: number, pascal: number): number;
    GetTDewPointFromHumRatio(celsius: number, humidityRatio: number, pascal: number): number;
    GetTWetBulbFromHumRatio(celsius: number, humidityRatio: number, pascal: number): number;
    GetVapPresFromHumRatio(humidityRatio: number, pascal: number): number;
    GetMoistAirEnthalpy(celsius: number, humidityRatio: number): number;
    GetMoistAirVolume(celsius: number, humidityRatio: number, pascal: number): number;
  };
  export default psychrolib;
}
