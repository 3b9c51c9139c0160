import {
  type BulkFailure,
  canPlan,
  chargingNumber,
  materialOf,
  phaseAdvice,
  toMoles,
  type CanPlan,
  type PhaseAdvice,
} from "../service/index.ts";
import { chargePlan, type ChargePlan } from "../trial/index.ts";
import { airAssumptions } from "./air-fields.ts";
import { compositionView, estimateSentences, noBulk, pairSources } from "./blend-answer.ts";
import { cautions } from "./cautions.ts";
import { chargeTargetOutput, type ChargeTargetResult } from "./charge-target-output.ts";
import { defineCalculation } from "./definition.ts";
import { fraction, optional, quantity } from "./field.ts";
import { labelField } from "./label-field.ts";
import { TEMPERATURES } from "./saturation.ts";
import { substanceFields, substanceOf, substanceSources } from "./substance-field.ts";
import { MODEL_SOURCES, runCautions } from "./vehicle.ts";
import { vehicleField } from "./vehicle-field.ts";
import { vesselFields } from "./vessel-fields.ts";

const MASSES = { from: 1e-3, to: 20 };
const HUMIDITY = 0.4;

const fields = {
  ...substanceFields,
  label: labelField,
  volume: optional({ ...vesselFields.volume }),
  ambient: optional(
    quantity("temperature", "Temperature of can, shop and resting system; 25 °C if left out", {
      from: 253.15,
      to: 333.15,
    }),
  ),
  condensing: optional(
    quantity("temperature", "Condensing temperature; 50 °C if left out", TEMPERATURES),
  ),
  humidity: optional(fraction(`Humidity of the outside air; ${100 * HUMIDITY} % if left out`)),
  vehicle: optional(vehicleField),
  canNet: optional(quantity("mass", "Net mass of a full can", MASSES)),
  canVolume: optional(
    quantity("volume", "Volume of a can, measured with water", { from: 1e-5, to: 0.1 }),
  ),
  hoseBore: optional(
    quantity("length", "Bore of the charging hose; 4.8 mm if left out", { from: 1e-3, to: 0.05 }),
  ),
  hoseLength: optional(
    quantity("length", "Length of the charging hose; 1.8 m if left out", { from: 0.01, to: 20 }),
  ),
  claimed: optional(quantity("mass", "Label refrigerant that one can is said to equal", MASSES)),
};

const phaseView = ({
  take,
  glide,
  firstVapour,
  asCharged,
}: PhaseAdvice): ChargeTargetResult["phase"] => ({
  take,
  glide,
  ...(firstVapour && {
    firstVapour: compositionView(whole(firstVapour), toMoles(whole(firstVapour))),
  }),
  asCharged: compositionView(asCharged, toMoles(asCharged)),
  why:
    take === "liquid"
      ? `This blend boils over ${glide.toFixed(1)} K: the vapour above it is another mixture, and what stays in the can another again. Take liquid from the can, throttled and slowly, never into the suction of a running compressor as liquid.`
      : "Vapour and liquid are the same mixture, so either may be taken: liquid only with the engine off or throttled, vapour into the low side of a running system.",
});

/** Fractions whose sum is 1 but for the rounding of a solver. */
const whole = (parts: PhaseAdvice["asCharged"]) => {
  const sum = parts.reduce((total, { fraction: part }) => total + part, 0);
  return parts.map(({ fluid, fraction: part }) => ({ fluid, fraction: part / sum }));
};

function cansView(plan: CanPlan): NonNullable<ChargeTargetResult["cans"]> {
  const { volume, liquid, vapour } = plan.hose;
  const { cans, residue, residueSaturated, delivered, lastDraw, spare } = plan;
  const can = { volume: plan.volume, assumedVolume: plan.assumedVolume };
  const hose = { volume, liquid, vapour };
  return { cans, ...can, residue, residueSaturated, hose, delivered, lastDraw, spare };
}

function planView(plan: ChargePlan, claimed: number | undefined) {
  const { optimum, atRest, highStop } = plan;
  return {
    masses: plan.masses.map((one) => ({ ...one })),
    target: { mass: plan.chosen.mass, method: plan.chosen.method, ...plan.range },
    claim: {
      equalLiquidVolume: plan.claimed,
      ...(claimed !== undefined && { perCan: claimed }),
      says: "Equal liquid volume, not equal cooling: shown beside the target because labels claim it. No target here rests on a label's claim.",
    },
    tolerance: { ...plan.tolerance },
    ...(optimum?.kind === "optimum" && {
      plateau: {
        from: optimum.plateau.from,
        to: optimum.plateau.to,
        reserve: optimum.reserve,
      },
    }),
    ...(atRest && { atRest: { firstLiquid: atRest.firstLiquid, points: [...atRest.points] } }),
    running: plan.running.map((step) => ({ ...step })),
    stops: {
      mass: plan.chosen.mass,
      mostMass: plan.tolerance.to,
      ...(highStop && { high: highStop.to, highExpected: highStop.expected }),
    },
  };
}

const OPTIMUM: Readonly<Record<string, string>> = {
  "no-property-table": "The model has no property table for this refrigerant: no optimum from it.",
  "never-balanced":
    "The model finds no charge at which this system is served and its buffer holds a reserve: no optimum from it.",
};

const APART =
  "The model's optimum lies more than 15 % outside of what the densities say, which points to an expansion device made for another flow: it is shown, and the target is the internal volume's or the liquid's.";

function assumptionsOf(plan: ChargePlan, cans: CanPlan | undefined): readonly string[] {
  const { optimum, volumeOfModel } = plan;
  return [
    "Nothing dissolved in the oil is counted; hydrocarbons dissolve in it strongly, so a little more is held there.",
    ...(volumeOfModel
      ? ["Internal volume taken from the vehicle's model; measure it if you can."]
      : []),
    ...(optimum?.kind === "none" ? [OPTIMUM[optimum.reason] ?? ""] : []),
    ...(optimum?.kind === "optimum"
      ? [
          "The model's optimum leaves the reserve in the receiver or accumulator that the label charge leaves of the label refrigerant, at 35 °C; its range is that from 25 to 43 °C. It is not fitted to this vehicle.",
        ]
      : []),
    ...(plan.modelApart ? [APART] : []),
    ...(cans?.assumedVolume === true
      ? [
          "The can's volume is taken as 85 % full of liquid at 25 °C; fill the empty one with water to know it.",
        ]
      : []),
  ];
}

export const chargeTarget = defineCalculation({
  name: "charge-target",
  title: "How much of a product to charge, out of how many cans, in which phase, and where to stop",
  fields,
  output: chargeTargetOutput,
  cautions: [
    cautions.notOnLabel,
    cautions.canHighSide,
    cautions.slug,
    cautions.ports,
    cautions.charge,
    cautions.rules,
  ],
  sources: [
    "Equal liquid volume: ratio of saturated liquid densities from the equations of state",
    "40 CFR 82 subpart B, appendix C 9.1: charge within 15 g, 500 g means 485 to 515 g",
    "docs/models/charging.md",
  ],
  run(values, air) {
    const substance = substanceOf(values);
    if (substance.kind === "invalid") return substance;
    const { label, volume, vehicle, canNet, claimed } = values;
    const ambient = values.ambient ?? chargingNumber("ambient").value;
    const product = materialOf(substance.moles);
    const plan = chargePlan({
      product: substance,
      label: { ...label.substance, charge: label.charge },
      ...{ volume, ambient, condensing: values.condensing ?? chargingNumber("condensing").value },
      humidity: values.humidity ?? HUMIDITY,
      pAir: air.p,
      vehicle: vehicle?.vehicle,
    });
    const failedAs = (failure: BulkFailure) =>
      noBulk(`${substance.name} or ${label.substance.name}`, failure);
    if (plan.kind === "failed") return failedAs(plan);
    const phase = phaseAdvice(product, ambient);
    if (phase.kind === "failed") return failedAs(phase);
    const cans =
      canNet === undefined
        ? undefined
        : canPlan({
            material: product,
            target: plan.chosen.mass,
            net: canNet,
            volume: values.canVolume,
            T: ambient,
            p: chargingNumber("hosePressure").value,
            hose: {
              bore: values.hoseBore ?? chargingNumber("hoseBore").value,
              length: values.hoseLength ?? chargingNumber("hoseLength").value,
            },
          });
    if (cans?.kind === "failed") return failedAs(cans);
    return {
      kind: "answer",
      result: {
        ...planView(plan, claimed),
        phase: phaseView(phase),
        ...(cans && { cans: cansView(cans) }),
      },
      cautions: runCautions(substance),
      sources: [
        ...substanceSources(substance),
        ...substanceSources(label.substance),
        ...pairSources(product),
        ...(vehicle ? MODEL_SOURCES : []),
      ],
      assumptions: [
        ...assumptionsOf(plan, cans),
        ...estimateSentences(product),
        ...(vehicle ? airAssumptions(air) : []),
      ],
    };
  },
});
