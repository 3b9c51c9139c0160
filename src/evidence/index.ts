// Evidence: what readings say about a vehicle, a can and a fault: calibration, identification, fair comparison.
// It must never know trials, logs, units as typed, screens. Basis: SI, kg, absolute pressure.
export {
  type BaselineRun,
  diagnose,
  type Diagnosis,
  type DiagnosisNote,
  type DiagnosisRequest,
  faultFacts,
  type FaultName,
  faultNames,
  faultQuantities,
  type FaultQuantity,
  type FaultReading,
  faultSources,
  nextPlaces,
  type NextReading,
  severityUnit,
} from "./faults/index.ts";
