import type { VNode } from "preact";
import { FoldedTable, type PictureTable } from "../../report/index.ts";
import { Fit } from "../look/fit.tsx";
import { SavePicture } from "./save-picture.tsx";

interface Props {
  readonly title: string;
  /** Where the numbers come from; it goes into the saved file. */
  readonly note: string;
  readonly table: PictureTable;
  /** The picture at a width; at a height too when it is drawn for a file. */
  readonly draw: (width: number, height?: number) => VNode;
}

/** A picture with its numbers and the ways to save it. */
export function PictureSheet({ title, note, table, draw }: Props) {
  return (
    <div class="picture-sheet">
      <Fit>{(width) => draw(width)}</Fit>
      <FoldedTable table={table} />
      <SavePicture picture={{ title, note, draw }} />
    </div>
  );
}
