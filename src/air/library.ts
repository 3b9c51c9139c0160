import psychrolib from "psychrolib";

// The library keeps one unit system for the whole process. It is set here, once, and nothing else may import it.
psychrolib.SetUnitSystem(psychrolib.SI);

/** The psychrometric library in SI: °C, Pa, J/kg of dry air, kg/kg. ASHRAE Fundamentals 2017, chapter 1. */
export const library = psychrolib;

export const ZERO_CELSIUS = 273.15;
