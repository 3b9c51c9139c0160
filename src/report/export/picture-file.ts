import type { VNode } from "preact";
import { render } from "preact-render-to-string";
import { textWidth } from "../pictures/text-room.ts";
import { lightStyle } from "./light-style.ts";

/** A picture drawn again for a sheet of its own. */
export interface PictureToSave {
  /** States the finding. */
  readonly title: string;
  /** Where the numbers come from; the last line of the sheet. */
  readonly note: string;
  /** The same picture at another size, px of the drawing. */
  readonly draw: (width: number, height: number) => VNode;
}

export interface PictureFormat {
  readonly width: number;
  readonly height: number;
  /** Picture pixels to one of the drawing: texts stay as large as on a screen. */
  readonly scale: number;
}

/** Shapes that a picture can be saved in: for a screen that lies, and for a square. */
export const pictureFormats = {
  wide: { width: 1920, height: 1080, scale: 2 },
  square: { width: 1080, height: 1080, scale: 1.75 },
} as const satisfies Record<string, PictureFormat>;

const MARGIN = 28;
const TITLE = 20;
const NOTE = 11;

/**
 * A picture as a file that stands alone: its own light colours and ground, its title and its note in it.
 * @returns SVG of the format's width and height; no script, no address, no font of its own.
 */
export function pictureFile({ title, note, draw }: PictureToSave, format: PictureFormat): string {
  const [width, height] = [format.width / format.scale, format.height / format.scale];
  const room = width - 2 * MARGIN;
  const titles = wrapped(title, TITLE, room);
  const notes = wrapped(note, NOTE, room);
  const top = MARGIN + titles.length * TITLE * 1.25 + 8;
  const bottom = height - MARGIN - notes.length * NOTE * 1.35;
  const drawing = drawingOf(render(draw(room, bottom - top - 6)));
  // A picture that has a height of its own is scaled into its room, never beyond one and a half.
  const fit = Math.min(room / drawing.width, (bottom - top - 6) / drawing.height, 1.5);
  const left = MARGIN + (room - drawing.width * fit) / 2;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${format.width}" height="${format.height}" viewBox="0 0 ${fine(width)} ${fine(height)}" role="img" aria-label="${escaped(title)}">`,
    `<style>${escaped(lightStyle())}</style>`,
    `<rect width="100%" height="100%" fill="#ffffff"/>`,
    `<g class="pic-drawing">`,
    ...titles.map((line, i) => text(line, MARGIN + TITLE * (0.8 + 1.25 * i), TITLE, "pic-name")),
    `<g transform="translate(${fine(left)} ${fine(top)}) scale(${fit.toFixed(4)})">`,
    drawing.inside,
    `</g>`,
    ...notes.map((line, i) => text(line, bottom + NOTE * (1.1 + 1.35 * i), NOTE, "pic-label")),
    `</g>`,
    `</svg>`,
  ].join("\n");
}

const text = (line: string, y: number, size: number, kind: string): string =>
  `<text class="${kind}" x="${MARGIN}" y="${fine(y)}" font-size="${size}">${escaped(line)}</text>`;

const fine = (value: number): string => String(Math.round(value * 100) / 100);

const escaped = (line: string): string =>
  line.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");

/** The drawing within a rendered figure: its size and what it holds. */
function drawingOf(figure: string): { width: number; height: number; inside: string } {
  const [, attributes = "", inside = ""] =
    /<svg([^>]*class="pic-drawing"[^>]*)>([\s\S]*)<\/svg>/.exec(figure) ?? [];
  const size = (name: string): number =>
    Number(new RegExp(`\\b${name}="([\\d.]+)"`).exec(attributes)?.[1]);
  const [width, height] = [size("width"), size("height")];
  if (!(width > 0 && height > 0)) throw new RangeError("the picture holds no drawing");
  return { width, height, inside };
}

/** Words in lines that fit; a single word may be longer than its line. */
function wrapped(words: string, size: number, room: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`, size) <= room) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  return lines;
}
