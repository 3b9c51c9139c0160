/** Brings a field into view and puts the cursor into it; a group's first control stands for the group. */
export function jumpTo(id: string): void {
  const element = document.getElementById(id);
  if (!element) return;
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  element.scrollIntoView({ block: "center", behavior: still ? "auto" : "smooth" });
  const control = element.matches("input, select, textarea, button")
    ? element
    : element.querySelector<HTMLElement>("input, select, textarea, button");
  control?.focus({ preventScroll: true });
}
