import type { IDBPDatabase } from 'idb';
import {
  type Appended,
  type EventLog,
  type LoggedEvent,
  type Read,
  idOf,
} from '../../core/log/event-log.ts';
import { rawOf, readEvent } from '../../core/log/upcast.ts';
import { ChangeSignal } from './change-signal.ts';
import { type Database, pageDatabase } from './database.ts';
import { MANY, eventsOf, idInKey, keysIn } from './record-range.ts';
import { problems } from './store-problem.ts';
import { EVENTS, RECORDS } from './upgrade-steps.ts';

/**
 * The log of a record in the browser's own store, by the record's name. Opening never fails: what is
 * wrong with the store is told by what asks something of it.
 *
 * An append is one transaction with strict durability: when it says ok, the events are on the
 * device's storage, and they are there all or none.
 */
export async function openIndexedLog(
  name: string,
  database: Database = pageDatabase,
): Promise<EventLog> {
  await database.open();
  return new IndexedLog(name, database);
}

class IndexedLog implements EventLog {
  readonly #name: string;
  readonly #database: Database;
  readonly #events = new Map<string, LoggedEvent>();
  readonly #watchers = new Set<() => void>();
  readonly #signal: ChangeSignal;
  readonly #stopListening: () => void;
  #isClosed = false;

  constructor(name: string, database: Database) {
    this.#name = name;
    this.#database = database;
    this.#signal = new ChangeSignal(`${database.name} ${name}`, () => void this.#look());
    this.#stopListening = database.onOver(() => this.#tell());
  }

  async append(events: readonly LoggedEvent[]): Promise<Appended> {
    if (this.#isClosed) return { ok: false, problem: problems.closed };
    const distinct = new Map(events.map((logged) => [idOf(logged), logged]));
    const wanted = [...distinct].filter(([id]) => !this.#events.has(id));
    if (wanted.length === 0) return { ok: true, added: 0 };
    const stored = await this.#database.use((connection) => this.#store(connection, wanted));
    if (!stored.ok) return stored;
    if (stored.value === 'erased') return { ok: false, problem: problems.erased };
    for (const [id, logged] of stored.value) this.#events.set(id, logged);
    if (stored.value.length > 0) this.#signal.send();
    return { ok: true, added: stored.value.length };
  }

  async read(): Promise<Read> {
    if (this.#isClosed) return { ok: false, problem: problems.closed };
    const found = await this.#database.use((connection) => this.#fetch(connection));
    if (!found.ok) return found;
    if (found.value === 'erased') return { ok: false, problem: problems.erased };
    for (const raw of found.value) {
      const logged = readEvent(raw);
      if (!this.#events.has(idOf(logged))) this.#events.set(idOf(logged), logged);
    }
    return { ok: true, events: [...this.#events.values()] };
  }

  watch(changed: () => void): () => void {
    this.#watchers.add(changed);
    return () => this.#watchers.delete(changed);
  }

  close(): Promise<void> {
    this.#isClosed = true;
    this.#watchers.clear();
    this.#signal.close();
    this.#stopListening();
    return Promise.resolve();
  }

  /** Those that were not there and now are; each is on storage when this is done. */
  async #store(
    connection: IDBPDatabase,
    wanted: readonly (readonly [string, LoggedEvent])[],
  ): Promise<readonly (readonly [string, LoggedEvent])[] | 'erased'> {
    const transaction = connection.transaction([EVENTS, RECORDS], 'readwrite', {
      durability: 'strict',
    });
    const { done } = transaction;
    // All are awaited below, but one can fail before that is reached.
    done.catch(() => undefined);
    try {
      const [store, records] = [transaction.objectStore(EVENTS), transaction.objectStore(RECORDS)];
      const isThere = (await records.getKey(this.#name)) !== undefined;
      if (!isThere && this.#events.size > 0) return 'erased';
      const ids = wanted.map(([id]) => id);
      const there = await keysIn(store, this.#name, ids);
      const fresh = wanted.filter(([id]) => !there.has(id));
      const requests: Promise<unknown>[] = [done];
      const ask = (request: Promise<unknown>): void => {
        request.catch(() => undefined);
        requests.push(request);
      };
      for (const [id, logged] of fresh) ask(store.put(rawOf(logged), [this.#name, id]));
      if (!isThere) ask(records.put({ name: this.#name }, this.#name));
      await Promise.all(requests);
      return fresh;
    } catch (error) {
      abort(transaction);
      throw error;
    }
  }

  /** What lies in the store that has not been read before. */
  async #fetch(connection: IDBPDatabase): Promise<readonly unknown[] | 'erased'> {
    const transaction = connection.transaction([EVENTS, RECORDS]);
    const store = transaction.objectStore(EVENTS);
    const isThere = (await transaction.objectStore(RECORDS).getKey(this.#name)) !== undefined;
    if (!isThere) return this.#events.size > 0 ? 'erased' : [];
    const range = eventsOf(this.#name);
    if (this.#events.size === 0) return store.getAll(range);
    const keys = await store.getAllKeys(range);
    const fresh = keys.filter((key) => !this.#events.has(idInKey(key) ?? ''));
    if (fresh.length > MANY) return store.getAll(range);
    return Promise.all(fresh.map((key): Promise<unknown> => store.get(key)));
  }

  async #look(): Promise<void> {
    if (this.#watchers.size === 0 || this.#isClosed) return;
    const before = this.#events.size;
    const read = await this.read();
    if (!read.ok || this.#events.size !== before) this.#tell();
  }

  #tell(): void {
    for (const changed of [...this.#watchers]) changed();
  }
}

/** Takes back what a transaction has done so far; one that is over already has done so itself. */
function abort(transaction: { abort(): void }): void {
  try {
    transaction.abort();
  } catch {
    return;
  }
}
