import answers from "../answers.css?raw";
import { pictureStyle } from "../picture-style.ts";
import pageStyle from "./page.css?raw";
import print from "./print.css?raw";

/** All that a report's page is styled by. Whoever shows a report by another policy than its own has to allow this text. */
export const reportStyle = `${pictureStyle}${answers}${pageStyle}${print}`;
