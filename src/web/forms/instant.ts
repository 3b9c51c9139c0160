/** A date-and-time field's text ("2026-06-14T08:41") and an ISO instant, both in this device's zone. */
export function instantOfField(text: string): string | undefined {
  const date = new Date(text);
  return text === "" || Number.isNaN(date.getTime()) ? undefined : date.toISOString();
}

const two = (n: number): string => String(n).padStart(2, "0");

export function fieldOfInstant(iso: string): string {
  const d = new Date(iso);
  if (Number.isNaN(d.getTime())) return "";
  const day = `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}`;
  const seconds = d.getSeconds() === 0 ? "" : `:${two(d.getSeconds())}`;
  return `${day}T${two(d.getHours())}:${two(d.getMinutes())}${seconds}`;
}

/** Written out: the browser's own formatter takes 50 ms to make on a slow phone, before the first form stands. */
const months = "Jan Feb Mar Apr May Jun Jul Aug Sept Oct Nov Dec".split(" ");

/** As people read it here: "14 Jun 2026, 08:41". */
export function spokenInstant(iso: string): string {
  const d = new Date(iso);
  if (Number.isNaN(d.getTime())) return iso;
  const day = `${d.getDate()} ${months[d.getMonth()] ?? ""} ${d.getFullYear()}`;
  return `${day}, ${two(d.getHours())}:${two(d.getMinutes())}`;
}

/** A file's own clock ("2026-06-14T08:41:00"), read as it stands, without any zone. */
export const spokenClock = (local: string): string => local.slice(0, 19).replace("T", " ");
