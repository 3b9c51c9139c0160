import {
  cylinderLimit,
  type CylinderLimit,
  flammabilityOf,
  materialOf,
  type Part,
} from "../../service/index.ts";
import { formatValue, fromSI } from "../../units/index.ts";
import { mixingWarning } from "../ledger/mixing.ts";
import { vehicleAccount } from "../ledger/view.ts";
import type { TrialView, VesselView } from "../view.ts";
import type { Handled } from "./handled.ts";

/** One thing that speaks against a vessel, or must be looked at first. */
export interface FitReason {
  readonly severity: "stop" | "check";
  readonly sentence: string;
}

/** Where the scale has to stop: kg. */
export interface StopMark {
  readonly tare: number;
  readonly maxMass: number;
  readonly maxGross: number;
  /** Inside now by the ledger, and what more may go in. */
  readonly inside: number;
  readonly room: number;
  readonly limit: CylinderLimit;
  /** Nobody knows the content: the limit is that of propane, the lightest there is. */
  readonly asLightest: boolean;
}

/** Whether a listed vessel may take what is to be recovered. */
export interface VesselFit {
  readonly id: string;
  readonly name: string;
  readonly kind: VesselView["kind"];
  readonly verdict: "may" | "check" | "no";
  readonly reasons: readonly FitReason[];
  readonly stopMark?: StopMark;
}

const LIGHTEST: readonly Part[] = [{ fluid: "R290", fraction: 1 }];

/** The stop mark of a vessel for a content; undefined without tare and capacity. */
export function stopMarkOf(
  view: TrialView,
  vessel: VesselView,
  content: Handled,
): StopMark | undefined {
  const { tare, waterCapacity, ratedPressure } = vessel;
  if (tare === undefined || waterCapacity === undefined) return undefined;
  const rating =
    ratedPressure === undefined ? undefined : Math.max(0, ratedPressure - view.atmosphere.value);
  const limit = cylinderLimit({
    material: materialOf(content.known?.moles ?? LIGHTEST),
    ...{ waterCapacity, tare, rating },
  });
  if (limit.kind === "failed") return undefined;
  const account = view.ledger.accounts.find(({ id }) => id === vessel.id);
  const inside = Math.max(0, account?.mass.value ?? 0);
  const { maxMass, maxGross } = limit;
  const asLightest = content.known === undefined;
  return { tare, maxMass, maxGross, inside, room: maxMass - inside, limit, asLightest };
}

const stop = (sentence: string): FitReason => ({ severity: "stop", sentence });
const check = (sentence: string): FitReason => ({ severity: "check", sentence });

const gauge = (pressure: number): string => formatValue(fromSI(pressure, "psi"), "psi");

function pressureReasons(vessel: VesselView, mark: StopMark | undefined): FitReason[] {
  if (!mark || vessel.ratedPressure === undefined || mark.limit.suits !== false) return [];
  return [
    stop(
      `Its marked pressure is too low: at 55 °C this refrigerant needs a vessel marked ${gauge(mark.limit.minimumClass)} or more.`,
    ),
  ];
}

function retestReasons({ retestBy, kind }: VesselView, today: string): FitReason[] {
  if (kind !== "cylinder") return [];
  if (retestBy === undefined) return [check("No retest date is listed: read the stamped one.")];
  return retestBy < today
    ? [stop(`Its test ran out on ${retestBy}: it must not be filled before it is tested again.`)]
    : [];
}

function roomReasons(mark: StopMark | undefined, coming: number): FitReason[] {
  if (!mark) {
    return [check("Tare and water capacity are needed to say how much may go in.")];
  }
  const kg = (mass: number): string => formatValue(mass, "kg");
  if (mark.room <= 0) return [stop(`It is full: it may hold ${kg(mark.maxMass)} and does.`)];
  return mark.room < coming
    ? [stop(`It has room for ${kg(mark.room)} and ${kg(coming)} may come.`)]
    : [];
}

/** A content that burns although no product's mark says so: the label's, or one declared by name. */
function flameReasons(vessel: VesselView, content: Handled): FitReason[] {
  if (vessel.flammableRated === true || !content.known) return [];
  return flammabilityOf(content.known.moles).kind === "limits"
    ? [stop(`${content.name} burns and this vessel is not listed as rated for flammable gas.`)]
    : [];
}

/**
 * Whether each listed vessel may take what is in the vehicle, with the reasons. A "may" is no permission.
 *
 * @param today YYYY-MM-DD, to hold against the retest date.
 */
export function vesselFits(view: TrialView, content: Handled, today: string): VesselFit[] {
  const coming = view.ledger.accounts.find(({ id }) => id === vehicleAccount)?.mass.value ?? 0;
  return view.vessels
    .filter(({ kind }) => kind !== "hose-set")
    .map((vessel) => {
      const mark = stopMarkOf(view, vessel, content);
      const mixing = mixingWarning(view, vehicleAccount, vessel.id);
      const flame = mixing.some(({ kind }) => kind === "not-flammable-rated");
      const reasons = [
        ...mixing,
        ...(flame ? [] : flameReasons(vessel, content)),
        ...pressureReasons(vessel, mark),
        ...(vessel.kind === "can" ? [] : retestReasons(vessel, today)),
        ...(vessel.kind === "can" ? [] : roomReasons(mark, coming)),
        ...(content.known
          ? []
          : [check(`Nobody knows what ${content.name} is: identify it first.`)]),
      ].map(({ severity, sentence }) => ({ severity, sentence }));
      const worst = reasons.some(({ severity }) => severity === "stop") ? "no" : "check";
      return {
        ...{ id: vessel.id, name: vessel.name, kind: vessel.kind },
        verdict: reasons.length === 0 ? ("may" as const) : worst,
        reasons,
        ...(mark && vessel.kind !== "can" && { stopMark: mark }),
      };
    });
}
