import type { Page } from "playwright-core";

/** What a gloved hand needs, px. */
const LEAST = 48;

/** Targets that are too small to touch; a link inside a sentence is as high as its line. */
const tooSmall = (page: Page): Promise<string[]> =>
  page.evaluate((least) => {
    const inSentence = (element: Element): boolean =>
      element.matches("p a, li a, dd a, p button.plain") &&
      getComputedStyle(element).display === "inline";
    /** A box or a dot is touched by its label, which holds it. */
    const touched = (element: Element): Element =>
      element.matches("input[type=radio], input[type=checkbox], input[type=file]")
        ? (element.closest("label") ?? element)
        : element;
    const targets = document.querySelectorAll(
      "a[href], button, input, select, textarea, summary, [role=button]",
    );
    return [...new Set([...targets].filter((one) => !inSentence(one)).map(touched))].flatMap(
      (element) => {
        const { width, height } = element.getBoundingClientRect();
        const hidden = !element.checkVisibility({ visibilityProperty: true }) || width <= 1;
        // Layout rounds to sixty-fourths of a pixel.
        if (hidden || (width >= least - 0.1 && height >= least - 0.1)) return [];
        const words = element.textContent.trim().slice(0, 40);
        const kind = `${element.tagName.toLowerCase()}.${element.className}`;
        return [`${kind} "${words}" ${width.toFixed(0)} × ${height.toFixed(0)}`];
      },
    );
  }, LEAST);

/** Targets too small to touch, and a page that leads sideways. */
export async function faultsOf(page: Page, screen: string): Promise<string[]> {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  const sideways = wide > 0 ? [`${wide} px too wide`] : [];
  return [...sideways, ...(await tooSmall(page))].map((fault) => `${screen}: ${fault}`);
}
