import { config } from "zod";

/**
 * The page's policy forbids code made from text. Without this the validator tries it once and the browser
 * reports a violation. Must be loaded before any module that validates while it loads.
 */
config({ jitless: true });
