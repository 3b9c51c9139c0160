import { pictureStyle } from "../picture-style.ts";

/**
 * The style sheet of pictures as other programs can read it: light colours in place of tokens, no
 * conditions, and nothing but rules for pictures. Editors of drawings know no custom properties.
 */
export const lightStyle = (): string => lightRules(pictureStyle);

function lightRules(css: string): string {
  const bare = css.replace(/\/\*[\s\S]*?\*\//g, "");
  const tokens = new Map(
    [...(/:root\s*\{([^}]*)\}/.exec(bare)?.[1] ?? "").matchAll(/(--[\w-]+):\s*([^;]+);/g)].map(
      ([, name = "", value = ""]) => [name, value.trim()],
    ),
  );
  return [...withoutConditions(bare).matchAll(/([^{}]+)\{([^{}]*)\}/g)]
    .filter(([, selector = ""]) => selector.includes(".pic"))
    .map(([, selector = "", body = ""]) => {
      const light = body.replace(/var\((--[\w-]+)\)/g, (_, name: string) => {
        const value = tokens.get(name);
        if (value === undefined) throw new Error(`the style sheet has no token ${name}`);
        return value;
      });
      return `${selector.replace(/\s+/g, " ").trim()}{${light.replace(/\s+/g, " ").trim()}}`;
    })
    .join("\n");
}

/** Cuts every `@media` block out; blocks nest one deep. */
const withoutConditions = (css: string): string =>
  css.replace(/@media[^{]*\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}/g, "");
