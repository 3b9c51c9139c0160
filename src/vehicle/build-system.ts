import { createWeights } from "./pack/interpolate.ts";
import { createIsobar, dewPressureAt, setPressure } from "./pack/isobar.ts";
import type { Pack } from "./pack/pack.ts";
import { condenserAir, humidityRatio, returnOf } from "./surroundings.ts";
import { type System, type SystemInput, volumeOf } from "./system.ts";

/** Systems without a low-pressure switch start above this, Pa (common practice, no source). */
const START_WITHOUT_SWITCH = 0.18e6;
/** Half width of a fin thermistor's cycle, K (common practice, no source). */
const FIN_CYCLE = 1.5;

/** Reduces a vehicle, its conditions, faults and fill to the numbers of the circuit. */
export function systemOf(input: SystemInput): System {
  const { vehicle, conditions, pack, bulb } = input;
  const v = vehicle.values;
  const { pAir, ambient } = conditions;
  const calm = Math.exp(-conditions.speed / Math.max(0.1, v.preheatSpeed));
  const N = (conditions.engineSpeed * v.pulleyRatio - 25) / 25;
  const condenser = condenserAir(input, calm);
  const volumes = volumesOf(input);
  const ma = (v.airFlow * conditions.blower * pAir) / 101325;
  const Wamb = humidityRatio(ambient, conditions.humidity, pAir);
  return {
    pack,
    bulb,
    orifice: vehicle.expansion === "orifice",
    pAir,
    Tamb: ambient,
    Wamb,
    ...controlOf(input),
    lnSmallest: Math.log(Math.max(1e-3, v.smallestDuty)),
    trip: v.highCutOut,
    variable: vehicle.control === "displacement",
    sweep: v.displacement * conditions.engineSpeed * v.pulleyRatio,
    etaV: v.volumetricEfficiency * input.faults.weakCompressor * (1 - v.volumetricSpeedSlope * N),
    clearance: v.clearance,
    etaIs: v.isentropicEfficiency - v.isentropicSpeedSlope * N,
    etaIsRatio: v.isentropicRatioSlope / 16,
    etaMech: v.mechanicalEfficiency,
    shellLoss: v.shellLoss,
    Kc: v.dischargeResistance,
    Ks: v.suctionResistance,
    ...condenser,
    UAsh: v.condenserVapourUA,
    UAsc: v.condenserLiquidUA,
    Q0c: v.condenserLoadReference,
    nc: v.condenserLoadExponent,
    fsc: v.subcoolArea,
    area: v.orificeArea * input.faults.restriction,
    Cd: v.dischargeCoefficient,
    flash: v.flashDelay,
    flashX: v.flashDelayQuality,
    aMin: v.valveSmallestOpening,
    spring: v.valveSpring,
    aRange: v.valveRange,
    ma,
    blowerRise: (v.blowerPower * conditions.blower ** 2) / (ma * 1006),
    recirculation: conditions.recirculation,
    UAo: v.evaporatorAirUA * (ma / v.airFlow) ** v.evaporatorAirExponent,
    UAi: v.evaporatorTwoPhaseUA,
    UAiSh: v.evaporatorVapourUA,
    Q0e: v.evaporatorLoadReference,
    ne: v.evaporatorLoadExponent,
    UAduct: v.ductUA,
    Tduct: ambient + v.ductWarmth * calm,
    xAcc: v.accumulatorQuality,
    ...returnOf(input, ma, Wamb),
    charge: input.fill.charge,
    ...volumes,
    fill: v.bufferFill,
    cyclingHead: v.cyclingHead,
  };
}

function volumesOf({ vehicle, conditions, fill, pack, heldOn }: SystemInput) {
  const v = vehicle.values;
  const Vtotal = volumeOf(vehicle);
  const bySwitch = vehicle.control === "switch";
  return {
    Vc: v.condenserVolume,
    Ve: v.evaporatorVolume,
    Vliq: v.liquidLineVolume,
    Vdis: v.dischargeLineVolume,
    Vsuc: v.suctionLineVolume,
    Vacc: v.bufferVolume,
    Vtotal,
    pRest: restPressure(pack, conditions.ambient, fill.charge / Vtotal),
    pStart: heldOn ? 0 : bySwitch ? v.switchCloses + conditions.pAir : START_WITHOUT_SWITCH,
  };
}

/** Pressure of the resting system at a temperature: that of the bubble point, or of a thin vapour. */
function restPressure(pack: Pack, T: number, rho: number): number {
  const iso = createIsobar(pack);
  const pDew = dewPressureAt(pack, T, createWeights());
  setPressure(iso, pDew);
  if (rho <= iso.rhoD) return (pDew * rho) / iso.rhoD;
  // Bubble pressure: the dew pressure of a pure fluid; of a blend between both, by the bubble line.
  if (!pack.glide) return pDew;
  let [low, high] = [pDew, pack.pMax];
  for (let k = 0; k < 40; k++) {
    const p = Math.sqrt(low * high);
    setPressure(iso, p);
    if (iso.Tb < T) low = p;
    else high = p;
  }
  return low;
}

function controlOf({ vehicle, conditions, pack, heldOn }: SystemInput) {
  const v = vehicle.values;
  const { pAir } = conditions;
  const held = { pSet: 1.01 * pack.pMin, pSetSlope: 0, cycling: false, cycleFrom: 0, cycleTo: 0 };
  if (heldOn) return held;
  switch (vehicle.control) {
    case "switch": {
      const mean = v.switchOpens + v.switchWeight * (v.switchCloses - v.switchOpens);
      return {
        pSet: pAir + mean,
        pSetSlope: 0,
        cycling: true,
        cycleFrom: pAir + v.switchOpens,
        cycleTo: pAir + v.switchCloses,
      };
    }
    case "fin": {
      const weights = createWeights();
      const T = v.finTemperature - v.finDifference;
      return {
        pSet: dewPressureAt(pack, T, weights),
        pSetSlope: 0,
        cycling: true,
        cycleFrom: dewPressureAt(pack, T - FIN_CYCLE, weights),
        cycleTo: dewPressureAt(pack, T + FIN_CYCLE, weights),
      };
    }
    case "displacement":
      return { ...held, pSet: pAir + v.suctionSetting, pSetSlope: v.suctionSlope };
  }
}
