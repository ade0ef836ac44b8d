import { ChangeSignal } from './change-signal.ts';
import { type Database, type Done, pageDatabase } from './database.ts';
import { eventsOf } from './record-range.ts';
import { EVENTS, PACKS, RECORDS } from './upgrade-steps.ts';

/** A record that is kept on this device. */
export interface KeptRecord {
  readonly name: string;
  /** How many events it holds. */
  readonly events: number;
}

/** The records on this device, by name. */
export function listRecords(
  database: Database = pageDatabase,
): Promise<Done<readonly KeptRecord[]>> {
  return database.use(async (connection) => {
    const transaction = connection.transaction([EVENTS, RECORDS]);
    const names = await transaction.objectStore(RECORDS).getAllKeys();
    const events = transaction.objectStore(EVENTS);
    return Promise.all(
      names.map(String).map(async (name) => ({ name, events: await events.count(eventsOf(name)) })),
    );
  });
}

/** Takes a whole record off this device, for good. A tab that has it open is told. */
export async function deleteRecord(
  name: string,
  database: Database = pageDatabase,
): Promise<Done<null>> {
  const gone = await database.use(async (connection) => {
    const transaction = connection.transaction([EVENTS, PACKS, RECORDS], 'readwrite', {
      durability: 'strict',
    });
    await Promise.all([
      transaction.objectStore(EVENTS).delete(eventsOf(name)),
      transaction.objectStore(PACKS).delete(eventsOf(name)),
      transaction.objectStore(RECORDS).delete(name),
      transaction.done,
    ]);
    return null;
  });
  if (gone.ok) {
    const signal = new ChangeSignal(`${database.name} ${name}`, () => undefined);
    signal.send();
    signal.close();
  }
  return gone;
}
