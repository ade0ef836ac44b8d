import * as z from 'zod/mini';
import { type Database, type Done, pageDatabase } from './database.ts';
import { RECORDS } from './upgrade-steps.ts';

/** What makes a record a finished season: whose it was, and under which title it is kept. */
const FinishedMark = z.object({
  name: z.string(),
  finished: z.object({ of: z.string(), title: z.string() }),
});

/** A record that was closed, or brought in closed; nobody writes to it any more. */
export interface FinishedRecord {
  readonly name: string;
  /** The record that it was, or belongs to. */
  readonly of: string;
  readonly title: string;
}

/** The finished records on this device, by title. */
export function listFinished(
  database: Database = pageDatabase,
): Promise<Done<readonly FinishedRecord[]>> {
  return database.use(async (connection) => {
    const kept: unknown[] = await connection.getAll(RECORDS);
    return kept
      .flatMap((entry) => {
        const read = FinishedMark.safeParse(entry);
        return read.success ? [{ name: read.data.name, ...read.data.finished }] : [];
      })
      .sort((a, b) => (a.title < b.title ? -1 : a.title > b.title ? 1 : a.name < b.name ? -1 : 1));
  });
}

/** Marks a record as finished; one that holds nothing yet may be marked first and filled then. */
export function finishRecord(
  { name, of, title }: FinishedRecord,
  database: Database = pageDatabase,
): Promise<Done<null>> {
  return database.use(async (connection) => {
    const transaction = connection.transaction(RECORDS, 'readwrite', { durability: 'strict' });
    await Promise.all([
      transaction.objectStore(RECORDS).put({ name, finished: { of, title } }, name),
      transaction.done,
    ]);
    return null;
  });
}

/**
 * The record that a season is written to now: `own`, and once that is finished `own 2`, `own 3`, and
 * so on, so that a page which still holds the finished one never writes into the next.
 */
export async function runningRecord(
  of: string,
  database: Database = pageDatabase,
): Promise<Done<string>> {
  const finished = await listFinished(database);
  if (!finished.ok) return finished;
  return database.use(async (connection) => {
    const names = (await connection.getAllKeys(RECORDS)).map(String);
    const last = Math.max(0, ...names.map((name) => turnOf(name, of)));
    const isOver = finished.value.some(({ name }) => name === nameOfTurn(of, last));
    return nameOfTurn(of, last === 0 || isOver ? last + 1 : last);
  });
}

const nameOfTurn = (of: string, turn: number): string => (turn === 1 ? of : `${of} ${turn}`);

/** 1 for `own`, 2 for `own 2`; 0 for any other name. */
function turnOf(name: string, of: string): number {
  if (name === of) return 1;
  const digits = name.startsWith(`${of} `) ? name.slice(of.length + 1) : '';
  return /^[1-9]\d*$/.test(digits) ? Number(digits) : 0;
}
