import { pictureFile, pictureFormats, type PictureToSave } from "../../report/index.ts";
import { fileNameOf, saveBlob, saveFile } from "../publish/save-file.ts";
import { say } from "../shell/notice.ts";
import { imageOf } from "./picture-image.ts";

type Shape = keyof typeof pictureFormats;
const shapes: readonly { readonly shape: Shape; readonly words: string }[] = [
  { shape: "wide", words: "wide, 1920 × 1080" },
  { shape: "square", words: "square, 1080 × 1080" },
];

/** The ways to take a picture along. */
export function SavePicture({ picture }: { readonly picture: PictureToSave }) {
  return (
    <details class="save-picture">
      <summary>Save this picture</summary>
      <div class="save-ways">
        {shapes.map(({ shape, words }) => (
          <button
            key={`png ${shape}`}
            type="button"
            class="button"
            onClick={() => void savePng(picture, shape)}
          >
            PNG, {words}
          </button>
        ))}
        {shapes.map(({ shape }) => (
          <button
            key={`svg ${shape}`}
            type="button"
            class="button"
            onClick={() => {
              const file = pictureFile(picture, pictureFormats[shape]);
              saveFile(fileNameOf(`${picture.title} ${shape}`, "svg"), file, "image/svg+xml");
              say("The picture is in your downloads.");
            }}
          >
            SVG, {shape}
          </button>
        ))}
      </div>
    </details>
  );
}

async function savePng(picture: PictureToSave, shape: Shape): Promise<void> {
  const format = pictureFormats[shape];
  const image = await imageOf(pictureFile(picture, format), format);
  if (!image) {
    say("This browser cannot draw the picture into a PNG. Save it as SVG instead.");
    return;
  }
  saveBlob(fileNameOf(`${picture.title} ${shape}`, "png"), image);
  say("The picture is in your downloads.");
}
