import charts from "./charts.css?raw";
import look from "./look.css?raw";
import pictures from "./pictures.css?raw";

/** Tokens and picture styles as text; the app links the same three files. */
export const pictureStyle = `${look}${pictures}${charts}`;
