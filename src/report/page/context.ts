import type { ReadingInContext, Stage, Substance, TrialView, Verdict } from "../../trial/index.ts";
import { lostAccount, unaccountedAccount, vehicleAccount } from "../../trial/index.ts";
import type { UnitChoice } from "../choose-unit.ts";
import { stageNames } from "../names.ts";

/** What every part of the page may ask. */
export interface Page {
  readonly view: TrialView;
  readonly units: UnitChoice;
  readonly judge: (reading: ReadingInContext) => Verdict | undefined;
  readonly generatedAt: string;
  /** Events in the log, refused ones included. */
  readonly events: number;
}

export const productName = ({ view }: Page, id: string): string =>
  view.products.find((product) => product.id === id)?.name ?? "a product that is not listed";

export const vesselName = ({ view }: Page, id: string): string => {
  if (id === vehicleAccount) return view.vehicle?.name ?? "Vehicle";
  if (id === lostAccount) return "lost";
  if (id === unaccountedAccount) return "unaccounted";
  return view.vessels.find((vessel) => vessel.id === id)?.name ?? "a vessel that is not listed";
};

export const instrumentName = ({ view }: Page, id: string | undefined): string =>
  id === undefined
    ? "no instrument named"
    : (view.instruments.find((one) => one.id === id)?.name ?? "an instrument that is not listed");

export const substanceName = (page: Page, substance: Substance): string =>
  substance.kind === "fluid" ? substance.fluid : productName(page, substance.product);

/** "Charge, Product B": a stage with the product it was walked for. */
export const stageName = (page: Page, stage: Stage, round: string | undefined): string =>
  round === undefined ? stageNames[stage] : `${stageNames[stage]}, ${productName(page, round)}`;
