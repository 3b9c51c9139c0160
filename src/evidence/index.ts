// Evidence: what readings say about a vehicle, a can and a fault: calibration, identification, fair comparison.
// It must never know trials, logs, units as typed, screens. Basis: SI, kg, absolute pressure.
export * from "./faults/index.ts";
