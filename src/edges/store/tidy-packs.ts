import type { IDBPDatabase } from 'idb';
import type { LoggedEvent } from '../../core/log/event-log.ts';
import { gathered, LARGEST, type Pack, packsOf, wholePacks } from './packs.ts';
import { eventsOf } from './record-range.ts';
import { EVENTS, PACKS } from './upgrade-steps.ts';

/**
 * Makes the packs of a record anew from its events. When another page has added some meanwhile, the
 * packs stay as they are: the next reading sees to it.
 */
export async function makePacks(
  connection: IDBPDatabase,
  name: string,
  events: readonly (readonly [string, LoggedEvent])[],
  checkedBy: string | null,
): Promise<void> {
  const packs: (readonly [string, Pack])[] = [];
  for (let from = 0; from < events.length; from += LARGEST) {
    packs.push(...packsOf(events.slice(from, from + LARGEST), checkedBy));
    // A finger on the screen goes first.
    await new Promise((resolve) => setTimeout(resolve));
  }
  const transaction = connection.transaction([EVENTS, PACKS], 'readwrite');
  const store = transaction.objectStore(PACKS);
  const count = await transaction.objectStore(EVENTS).count(eventsOf(name));
  const requests: Promise<unknown>[] = [transaction.done];
  if (count === events.length) {
    requests.push(store.delete(eventsOf(name)));
    for (const [id, pack] of packs) requests.push(store.put(pack, [name, id]));
  }
  await Promise.all(requests);
}

/** Puts small packs together, as many as one may hold. */
export async function gatherPacks(connection: IDBPDatabase, name: string): Promise<void> {
  const transaction = connection.transaction([EVENTS, PACKS], 'readwrite');
  const store = transaction.objectStore(PACKS);
  const [count, keys, found] = await Promise.all([
    transaction.objectStore(EVENTS).count(eventsOf(name)),
    store.getAllKeys(eventsOf(name)),
    store.getAll(eventsOf(name)),
  ]);
  const packs = wholePacks(found, count);
  const together = gathered((packs ?? []).map((pack, index) => [keys[index], pack] as const));
  const requests: Promise<unknown>[] = [transaction.done];
  const [first] = together?.keys ?? [];
  if (together !== null && first !== undefined) {
    for (const key of together.keys) if (key !== undefined) requests.push(store.delete(key));
    requests.push(store.put(together.pack, first));
  }
  await Promise.all(requests);
}
