import type { SeasonEvent } from '../../core/domain/event.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { SeasonChange } from '../workers/forecast-messages.ts';

/** Remembers which events have been sent, so that a note sends one event and not the season. */
export class SeasonSent {
  #key = 0;
  #events: ReadonlyMap<string, SeasonEvent> | null = null;

  /** Events to begin with, before there is a record of them; they count as sent from now on. */
  begin(events: readonly SeasonEvent[], zone: string): SeasonChange {
    this.#events = new Map(events.map((event) => [event.id, event]));
    return { key: ++this.#key, begins: true, added: events, zone };
  }

  /** What is still to be sent for a record; counts as sent from now on. */
  changeTo(record: SeasonRecord): SeasonChange {
    const before = this.#events;
    this.#events = record.events;
    const { zone } = record;
    if (before === record.events) return { key: this.#key, begins: false, added: [], zone };
    const added: SeasonEvent[] = [];
    let kept = 0;
    for (const [id, event] of record.events) {
      const held = before?.get(id);
      if (held !== event) added.push(event);
      if (held !== undefined) kept++;
    }
    // An event that was sent cannot be taken back: what stands now is told from the start.
    if (before === null || kept < before.size) {
      return { key: ++this.#key, begins: true, added: [...record.events.values()], zone };
    }
    return { key: this.#key, begins: false, added, zone };
  }

  /** When sending failed: the next change tells everything. */
  forget(): void {
    this.#events = null;
  }
}
