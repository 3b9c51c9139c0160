import type { Locator } from "playwright-core";
import { type Pixels, readCode } from "./qr-reader.ts";

/** Reads a code off the screen as another device's camera would: from what is painted. */
export async function readOffScreen(code: Locator): Promise<string> {
  // A notice passes over the code for some seconds; a person waits, a test has no time.
  await code.page().evaluate(() => {
    for (const notice of document.querySelectorAll<HTMLElement>(".notice"))
      notice.style.display = "none";
  });
  const picture = (await code.screenshot()).toString("base64");
  // A page of its own: the app's policy need not let a test read pictures.
  const page = await code.page().context().newPage();
  const pixels = await page.evaluate(async (base64): Promise<Pixels> => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    // A dark page shines through at the picture's edges, where a pixel is shared; the quiet zone is wider.
    const edge = 3;
    const [width, height] = [image.width - 2 * edge, image.height - 2 * edge];
    const context = new OffscreenCanvas(width, height).getContext("2d");
    if (!context) throw new Error("no canvas");
    context.drawImage(image, -edge, -edge);
    const { data } = context.getImageData(0, 0, width, height);
    const grey = Array.from({ length: width * height }, (_, i) => data[4 * i + 1] ?? 255);
    return { width, height, grey };
  }, picture);
  await page.close();
  return readCode(pixels);
}
