import type { PictureFormat } from "../../report/index.ts";

/**
 * Draws a picture's file into an image of the same size.
 * @returns a PNG, or undefined where the browser cannot draw it.
 */
export async function imageOf(
  svg: string,
  { width, height }: PictureFormat,
): Promise<Blob | undefined> {
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const image = new Image(width, height);
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [width, height];
    canvas.getContext("2d")?.drawImage(image, 0, 0, width, height);
    return await new Promise((resolve) => {
      canvas.toBlob((blob) => {
        resolve(blob ?? undefined);
      }, "image/png");
    });
  } catch (error) {
    if (error instanceof DOMException) return undefined;
    throw error;
  } finally {
    URL.revokeObjectURL(address);
  }
}
