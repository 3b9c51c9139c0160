import type { Page } from "playwright-core";

/** The page has loaded axe by then. */
declare const axe: {
  run(
    within?: string,
  ): Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }>;
};

/** Serious and critical violations of the axe rules on a page or a part of it, with the first nodes of each. */
export const grave = (page: Page, within = "html"): Promise<string[]> =>
  page.evaluate(async (part) => {
    const { violations } = await axe.run(part);
    return violations
      .filter(({ impact }) => impact === "serious" || impact === "critical")
      .flatMap(({ id, nodes }) =>
        nodes.slice(0, 3).map(({ html }) => `${id}: ${html.slice(0, 160)}`),
      );
  }, within);
