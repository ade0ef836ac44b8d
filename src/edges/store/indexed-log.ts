import type { IDBPDatabase } from 'idb';
import {
  type Appended,
  type EventLog,
  type LoggedEvent,
  type Read,
  type ReadAhead,
  idOf,
} from '../../core/log/event-log.ts';
import { rawOf, readEvent } from '../../core/log/upcast.ts';
import { ChangeSignal } from './change-signal.ts';
import { type Database, pageDatabase } from './database.ts';
import {
  type Disorder,
  disorderOf,
  eventsOfPacks,
  openPacks,
  type Pack,
  packsOf,
  wholePacks,
} from './packs.ts';
import { MANY, eventsOf, idInKey, keysIn } from './record-range.ts';
import { problems } from './store-problem.ts';
import { gatherPacks, makePacks } from './tidy-packs.ts';
import { EVENTS, PACKS, RECORDS } from './upgrade-steps.ts';

export interface LogOptions {
  readonly database?: Database;
  /**
   * What names this version of the app, code and all: what it has checked once is not checked again.
   * Null (the default) = everything is checked whenever it is read.
   */
  readonly checkedBy?: string | null;
  /** Does later what nobody waits for, such as setting the store in order; some seconds by default. */
  readonly later?: (work: () => void) => void;
}

const later_ms = 5_000;

/** What the first reading of a log found: copies of all of it, or every entry. */
type Found =
  { readonly packs: readonly Pack[] } | { readonly entries: readonly unknown[] } | 'erased';

/**
 * The log of a record in the browser's own store, by the record's name. Opening never fails: what is
 * wrong with the store is told by what asks something of it.
 *
 * An append is one transaction with strict durability: when it says ok, the events are on the
 * device's storage, and they are there all or none.
 */
export async function openIndexedLog(name: string, options: LogOptions = {}): Promise<EventLog> {
  const { database = pageDatabase } = options;
  await database.open();
  return new IndexedLog(name, database, options);
}

class IndexedLog implements EventLog {
  readonly #name: string;
  readonly #database: Database;
  readonly #events = new Map<string, LoggedEvent>();
  readonly #watchers = new Set<() => void>();
  readonly #signal: ChangeSignal;
  readonly #stopListening: () => void;
  readonly #checkedBy: string | null;
  readonly #later: (work: () => void) => void;
  #isClosed = false;

  constructor(name: string, database: Database, options: LogOptions) {
    this.#name = name;
    this.#database = database;
    this.#checkedBy = options.checkedBy ?? null;
    this.#later = options.later ?? ((work) => void setTimeout(work, later_ms));
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

  async read(ahead?: ReadAhead): Promise<Read> {
    if (this.#isClosed) return { ok: false, problem: problems.closed };
    const isFirst = this.#events.size === 0;
    const found = await this.#database.use((connection) => this.#fetch(connection, isFirst));
    if (!found.ok) return found;
    if (found.value === 'erased') return { ok: false, problem: problems.erased };
    if ('entries' in found.value) {
      this.#hold(found.value.entries.map(readEvent));
      if (isFirst && found.value.entries.length > 0) this.#tidyLater('not of now');
      return { ok: true, events: [...this.#events.values()] };
    }
    return this.#readPacks(found.value.packs, ahead);
  }

  /** Reads the copies, those first that need no checking; every entry when a copy is damaged. */
  async #readPacks(packs: readonly Pack[], ahead: ReadAhead | undefined): Promise<Read> {
    const opened = openPacks(packs, this.#checkedBy);
    // An event that was appended meanwhile stands before what is told.
    const isAhead = ahead !== undefined && this.#events.size === 0;
    const disorder = disorderOf(packs, this.#checkedBy);
    if (isAhead) ahead(opened.filter((one) => one.isChecked).map(({ pack }) => pack.plain));
    const found = eventsOfPacks(opened);
    if (found === null) {
      const entries = await this.#database.use((connection) => this.#fetchEntries(connection));
      if (!entries.ok) return entries;
      this.#hold(entries.value.map(readEvent));
      this.#tidyLater('not of now');
      return { ok: true, events: [...this.#events.values()] };
    }
    this.#hold(found.told);
    this.#hold(found.others);
    this.#tidyLater(disorder);
    const told = isAhead ? found.told.length : 0;
    return { ok: true, events: [...this.#events.values()], told };
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
    const transaction = connection.transaction([EVENTS, PACKS, RECORDS], 'readwrite', {
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
      const packs = transaction.objectStore(PACKS);
      for (const [id, pack] of packsOf(fresh, this.#checkedBy)) {
        ask(packs.put(pack, [this.#name, id]));
      }
      if (!isThere) ask(records.put({ name: this.#name }, this.#name));
      await Promise.all(requests);
      return fresh;
    } catch (error) {
      abort(transaction);
      throw error;
    }
  }

  /** What lies in the store that has not been read before: all of it at first. */
  async #fetch(connection: IDBPDatabase, isFirst: boolean): Promise<Found> {
    const transaction = connection.transaction([EVENTS, PACKS, RECORDS]);
    const store = transaction.objectStore(EVENTS);
    const isThere = (await transaction.objectStore(RECORDS).getKey(this.#name)) !== undefined;
    if (!isThere) return this.#events.size > 0 ? 'erased' : { entries: [] };
    const range = eventsOf(this.#name);
    if (isFirst) {
      const [count, copies] = await Promise.all([
        store.count(range),
        transaction.objectStore(PACKS).getAll(range),
      ]);
      const packs = wholePacks(copies, count);
      return packs === null ? { entries: await store.getAll(range) } : { packs };
    }
    const keys = await store.getAllKeys(range);
    const fresh = keys.filter((key) => !this.#events.has(idInKey(key) ?? ''));
    if (fresh.length > MANY) return { entries: await store.getAll(range) };
    return { entries: await Promise.all(fresh.map((key): Promise<unknown> => store.get(key))) };
  }

  #fetchEntries(connection: IDBPDatabase): Promise<readonly unknown[]> {
    return connection.getAll(EVENTS, eventsOf(this.#name));
  }

  #hold(read: readonly LoggedEvent[]): void {
    for (const logged of read) {
      if (!this.#events.has(idOf(logged))) this.#events.set(idOf(logged), logged);
    }
  }

  /** Has the copies put in order when nobody waits; a failure costs time at the next reading alone. */
  #tidyLater(disorder: Disorder | null): void {
    if (disorder === null) return;
    this.#later(() => {
      if (this.#isClosed) return;
      void this.#database.use((connection) =>
        disorder === 'scattered'
          ? gatherPacks(connection, this.#name)
          : makePacks(connection, this.#name, [...this.#events], this.#checkedBy),
      );
    });
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
