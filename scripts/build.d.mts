export function builtApp(): string | undefined;
