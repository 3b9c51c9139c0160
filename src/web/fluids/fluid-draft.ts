import { fieldDraft } from "../fields/field-draft.ts";

/** What stands in the fields of the fluids page. */
export const fluidDraft = fieldDraft("fluids", "fluids");

export const startFluidDraft = (): Promise<void> => fluidDraft.start();
export const changeFluidDraft = fluidDraft.change;
export const fluidField = fluidDraft.field;
