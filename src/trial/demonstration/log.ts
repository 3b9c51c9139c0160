import type { BodyOf, EventType, TrialEvent } from "../events.ts";

/**
 * Writes the log of an invented trial with ids and times that never change: a UUIDv7 is made from
 * the instant and a counter instead of chance.
 */
export class InventedLog {
  readonly events: TrialEvent[] = [];
  readonly trial: string;
  private count = 0;

  constructor(start: string) {
    this.trial = this.id(start);
  }

  private id(at: string): string {
    const hex = (value: number, width: number) => value.toString(16).padStart(width, "0");
    const ms = hex(Date.parse(at), 12);
    const n = hex(++this.count, 3);
    return `${ms.slice(0, 8)}-${ms.slice(8)}-7${n}-8c01-${hex(0xd0000000 + this.count, 12)}`;
  }

  /**
   * Appends an event and gives its id.
   *
   * @param at      UTC, ISO with Z.
   * @param device  Where it was made.
   */
  add<T extends EventType>(at: string, type: T, body: BodyOf<T>, device = "bay tablet"): string {
    const id = this.id(at);
    // The pairing of type and body is checked by the signature; the union cannot express it.
    const event = {
      id,
      trial: this.trial,
      at,
      device,
      type,
      v: 1,
      body,
    } as TrialEvent;
    this.events.push(event);
    return id;
  }
}
