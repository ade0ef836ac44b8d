import type { IDBPObjectStore } from 'idb';

/** From here on it is quicker to fetch all of a record than to ask for each. */
export const MANY = 100;

/** The range of the keys [name, id] of one record. An array sorts after every text. */
export function eventsOf(name: string): IDBKeyRange {
  return IDBKeyRange.bound([name], [name, []]);
}

/** The event's id in a key of the events; null when it is no such key. */
export function idInKey(key: IDBValidKey | undefined): string | null {
  const id: unknown = Array.isArray(key) ? key[1] : null;
  return typeof id === 'string' ? id : null;
}

/** Ids begin with the time they were made: those of one piece lie close together in a long record. */
function between(name: string, ids: readonly string[]): IDBKeyRange {
  const [first, last] = ids.reduce(
    ([least, most], id) => [id < least ? id : least, id > most ? id : most],
    [ids[0] ?? '', ids[0] ?? ''],
  );
  return IDBKeyRange.bound([name, first], [name, last]);
}

/** Which of these ids a record holds; others of the record may be among them. */
export async function keysIn(
  store: Pick<
    IDBPObjectStore<unknown, string[], string, IDBTransactionMode>,
    'getKey' | 'getAllKeys'
  >,
  name: string,
  ids: readonly string[],
): Promise<ReadonlySet<string>> {
  const keys =
    ids.length > MANY
      ? await store.getAllKeys(between(name, ids))
      : await Promise.all(ids.map((id) => store.getKey([name, id])));
  return new Set(keys.map(idInKey).filter((id) => id !== null));
}
