import { signal } from "@preact/signals";

/** A short word about what was just done; it goes by itself or with the next act. */
export const notice = signal<string | undefined>(undefined);

let timer: ReturnType<typeof setTimeout> | undefined;

export function say(sentence: string): void {
  notice.value = sentence;
  clearTimeout(timer);
  timer = setTimeout(() => {
    notice.value = undefined;
  }, 6000);
}
