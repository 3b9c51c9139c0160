import type { Page } from "playwright-core";

/** The page has loaded axe by then. */
declare const axe: {
  run(
    within: string,
    options: { rules: Record<string, { enabled: boolean }> },
  ): Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }>;
};

/** Serious and critical violations of the axe rules on a page or a part of it, with the first nodes of each; text has to be readable in glare, 7:1. */
export const grave = (page: Page, within = "html"): Promise<string[]> =>
  page.evaluate(async (part) => {
    const { violations } = await axe.run(part, {
      rules: { "color-contrast-enhanced": { enabled: true } },
    });
    return violations
      .filter(({ impact }) => impact === "serious" || impact === "critical")
      .flatMap(({ id, nodes }) =>
        nodes.slice(0, 3).map(({ html }) => `${id}: ${html.slice(0, 160)}`),
      );
  }, within);
