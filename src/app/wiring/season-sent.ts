import type { SeasonEvent } from '../../core/domain/event.ts';
import type { CheckedTexts } from '../../core/log/event-log.ts';
import { EventsSoFar } from '../../core/log/events-so-far.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { SeasonChange } from '../workers/forecast-messages.ts';

/** Remembers which events have been sent, so that a note sends one event and not the season. */
export class SeasonSent {
  #key = 0;
  #events: ReadonlyMap<string, SeasonEvent> | null = null;
  #isAhead = false;

  /** Texts of events to begin with, before they are read; `begin` follows with what they told. */
  beginAhead(texts: CheckedTexts, zone: string): SeasonChange {
    this.#isAhead = true;
    return { key: ++this.#key, begins: true, added: [], texts, zone };
  }

  /**
   * Events to begin with, before there is a record of them: those of the texts that were sent ahead,
   * and more. All count as sent from now on.
   */
  begin(told: readonly SeasonEvent[], more: readonly SeasonEvent[], zone: string): SeasonChange {
    this.#events = new Map([...told, ...more].map((event) => [event.id, event]));
    if (this.#isAhead) return { key: this.#key, begins: false, added: more, zone };
    return { key: ++this.#key, begins: true, added: [...told, ...more], zone };
  }

  /** What is still to be sent for a record; counts as sent from now on. */
  changeTo(record: SeasonRecord): SeasonChange {
    const before = this.#events;
    this.#events = record.events;
    const { zone } = record;
    const isGoingOn = before instanceof EventsSoFar && record.events instanceof EventsSoFar;
    const since = isGoingOn ? record.events.since(before) : null;
    if (since !== null) return { key: this.#key, begins: false, added: since, zone };
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
    this.#isAhead = false;
    this.#events = null;
  }
}
