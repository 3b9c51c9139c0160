/** Texts that would act if anything took them for markup, script, an address or a style. Each marks what it makes. */
export const attacks: readonly string[] = [
  "<script data-attack>globalThis.attacked=1</script>",
  '<img data-attack src=x onerror="globalThis.attacked=1">',
  "<svg data-attack onload=globalThis.attacked=1><title>x</title></svg>",
  '"><b data-attack onmouseover=globalThis.attacked=1>x</b>',
  "' onfocus=globalThis.attacked=1 autofocus data-attack x='",
  "</title></style></textarea></script><i data-attack>x</i>",
  "<style data-attack>*{display:none}</style>",
  "<iframe data-attack srcdoc='<script>parent.attacked=1</script>'></iframe>",
  "<a data-attack href=javascript:globalThis.attacked=1>x</a>",
  "javascript:globalThis.attacked=1",
  "data:text/html,<script>globalThis.attacked=1</script>",
  "<meta data-attack http-equiv=refresh content='0;url=http://127.0.0.1:9/'>",
  "<base data-attack href=http://127.0.0.1:9/>",
  "<math data-attack><mi xlink:href='javascript:globalThis.attacked=1'>x</mi></math>",
  "<!--<img data-attack src=x onerror=globalThis.attacked=1>-->",
  "&lt;img data-attack src=x onerror=globalThis.attacked=1&gt;",
  "${globalThis.attacked=1}{{constructor.constructor('globalThis.attacked=1')()}}",
  "]]><u data-attack>x</u><![CDATA[",
  "\u202e<img data-attack src=x>\u2066 upside down \u0000",
  "__proto__",
];

/** Fields of events that take free words. */
const free: ReadonlySet<string> = new Set([
  "title",
  "question",
  "place",
  "conditions",
  "name",
  "oil",
  "declares",
  "claims",
  "price",
  "fitting",
  "note",
  "evidence",
  "fileName",
  "text",
  "reason",
  "item",
  "device",
]);

/** The same log with an attack in every free text, each in turn; the first words stay, so that lists differ. */
export function attacked(log: unknown, first = 0): unknown {
  let next = first;
  const replaced = (value: unknown, key: string): unknown => {
    if (Array.isArray(value)) return value.map((one) => replaced(one, key));
    if (typeof value === "object" && value !== null) {
      return Object.fromEntries(
        Object.entries(value).map(([name, one]) => [name, replaced(one, name)]),
      );
    }
    if (typeof value !== "string" || !free.has(key)) return value;
    const attack = attacks[next++ % attacks.length] ?? "";
    return key === "device"
      ? attack.slice(0, 80)
      : `${attack}${key === "item" ? "" : " x"}`.slice(0, 119);
  };
  return replaced(log, "");
}
