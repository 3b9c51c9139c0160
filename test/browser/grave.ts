import type { Page } from "playwright-core";

/** The page has loaded axe by then. */
declare const axe: {
  run(): Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }>;
};

/** Serious and critical violations of the axe rules on a page, with the first nodes of each. */
export const grave = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    const { violations } = await axe.run();
    return violations
      .filter(({ impact }) => impact === "serious" || impact === "critical")
      .flatMap(({ id, nodes }) =>
        nodes.slice(0, 3).map(({ html }) => `${id}: ${html.slice(0, 160)}`),
      );
  });
