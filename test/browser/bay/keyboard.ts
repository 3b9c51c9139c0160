import type { Page } from "playwright-core";

/** Presses Tab until what has the keyboard is called so; says where it went when it never comes there. */
export async function tabTo(page: Page, name: string | RegExp, most = 150): Promise<void> {
  const been: string[] = [];
  while (been.length < most) {
    await page.keyboard.press("Tab");
    const here = await page.evaluate(() => {
      const element = document.activeElement;
      if (!(element instanceof HTMLElement)) return "";
      const label = element instanceof HTMLInputElement ? element.labels?.[0]?.textContent : "";
      return (element.getAttribute("aria-label") ?? (label || element.textContent)).trim();
    });
    if (typeof name === "string" ? here === name : name.test(here)) return;
    been.push(here.slice(0, 30));
  }
  throw new Error(`the keyboard does not come to ${String(name)}: ${been.join(" | ")}`);
}
