/**
 * Fresh air in a cabin by a named assumption, changes of its whole air an hour.
 *
 * Measurements on vehicles scatter by a factor of three and more, so none of these is a fact about this one: each
 * stands at the low end of what studies report, and who asks chooses it.
 *
 * Source: in-vehicle air-exchange studies, from memory, shaky: parked with windows shut 0.5 to 3, moving with vents
 * shut 2 to 7, fresh-air fan 30 to 130, one window open 20 to 80 an hour
 */
export const ventilations = [
  { name: "sealed", changes: 0, words: "no fresh air at all" },
  { name: "parked-shut", changes: 0.5, words: "parked, windows shut" },
  { name: "moving-vents-shut", changes: 2, words: "moving, vents shut" },
  { name: "window-open", changes: 20, words: "one window open" },
  { name: "fresh-air-fan", changes: 30, words: "fan on fresh air" },
] as const;
export type Ventilation = (typeof ventilations)[number]["name"];

/** Changes an hour to 1/s. */
export const perHour = (changes: number): number => changes / 3600;

/** Free height of a cabin above its floor, m: floor area from volume. Common practice, no source. */
export const CABIN_HEIGHT = 1.1;
/** Height of the layer in the worst case, m: below the seats. Common practice, no source. */
export const LAYER_HEIGHT = 0.3;
