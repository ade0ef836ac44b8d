import { type Appended, type EventLog, type LoggedEvent, type Read, idOf } from './event-log.ts';

/** A log that lives as long as the page: for the invented season and for tests. */
export class MemoryLog implements EventLog {
  readonly #events = new Map<string, LoggedEvent>();
  #closed = false;

  append(events: readonly LoggedEvent[]): Promise<Appended> {
    if (this.#closed) return Promise.resolve({ ok: false, problem: closed });
    const before = this.#events.size;
    for (const event of events) {
      if (!this.#events.has(idOf(event))) this.#events.set(idOf(event), event);
    }
    return Promise.resolve({ ok: true, added: this.#events.size - before });
  }

  read(): Promise<Read> {
    if (this.#closed) return Promise.resolve({ ok: false, problem: closed });
    return Promise.resolve({ ok: true, events: [...this.#events.values()] });
  }

  watch(): () => void {
    return () => undefined;
  }

  close(): Promise<void> {
    this.#closed = true;
    return Promise.resolve();
  }
}

const closed = {
  kind: 'closed',
  message: 'This record has been closed. Open the page again to go on; nothing is lost.',
} as const;
