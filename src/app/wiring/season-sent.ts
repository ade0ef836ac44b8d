import type { SeasonEvent } from '../../core/domain/event.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { SeasonChange } from '../workers/forecast-messages.ts';

/** Remembers which events have been sent, so that a note sends one event and not the season. */
export class SeasonSent {
  #key = 0;
  #record: SeasonRecord | null = null;

  /** What is still to be sent for a record; counts as sent from now on. */
  changeTo(record: SeasonRecord): SeasonChange {
    const before = this.#record;
    this.#record = record;
    const { zone } = record;
    if (before === record) return { key: this.#key, begins: false, added: [], zone };
    const added: SeasonEvent[] = [];
    let kept = 0;
    for (const [id, event] of record.events) {
      const held = before?.events.get(id);
      if (held !== event) added.push(event);
      if (held !== undefined) kept++;
    }
    // An event that was sent cannot be taken back: what stands now is told from the start.
    if (before === null || kept < before.events.size) {
      return { key: ++this.#key, begins: true, added: [...record.events.values()], zone };
    }
    return { key: this.#key, begins: false, added, zone };
  }

  /** When sending failed: the next change tells everything. */
  forget(): void {
    this.#record = null;
  }
}
