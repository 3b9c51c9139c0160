import type { Locator } from "playwright-core";
import { type Pixels, readCode } from "./qr-reader.ts";

/** Reads a code off the screen as another device's camera would: from what is painted. */
export async function readOffScreen(code: Locator): Promise<string> {
  const picture = (await code.screenshot()).toString("base64");
  // A page of its own: the app's policy need not let a test read pictures.
  const page = await code.page().context().newPage();
  const pixels = await page.evaluate(async (base64): Promise<Pixels> => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    const { width, height } = image;
    const context = new OffscreenCanvas(width, height).getContext("2d");
    if (!context) throw new Error("no canvas");
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, width, height);
    const grey = Array.from({ length: width * height }, (_, i) => data[4 * i + 1] ?? 255);
    return { width, height, grey };
  }, picture);
  await page.close();
  return readCode(pixels);
}
