export function readAudit(
  output: string,
  fails?: readonly string[],
): { readonly kind: "sound" | "faulty" | "unknown"; readonly words: string };

export function audit(say: (line: string) => void, timeout?: number): Promise<boolean>;
