import file from "../../../data/demonstration/lesson.json";
import type { EventType } from "../../trial/index.ts";

/** An entry of the invented van; another thing stands as "@" and the name under which it is listed. */
export interface LessonEntry {
  readonly type: EventType;
  readonly body: Readonly<Record<string, unknown>>;
}

// Bodies are looked at when they are recorded, like anything else that enters a log.
const { parts } = file as { parts: Readonly<Record<string, readonly LessonEntry[]>> };

/** What belongs to a step of the guide; nothing for a step at which there is only something to read. */
export const lessonPart = (id: string): readonly LessonEntry[] => parts[id] ?? [];

/** The entry that lists a thing of the lesson under its name. */
export const listing = (name: string): LessonEntry | undefined =>
  Object.values(parts)
    .flat()
    .find((entry) => nameOf(entry) === name);

/** The name under which an entry lists something that others refer to. */
export function nameOf({ type, body }: LessonEntry): string | undefined {
  const name = type === "trace-imported" ? body["fileName"] : body["name"];
  return typeof name === "string" ? name : undefined;
}
