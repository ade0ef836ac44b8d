import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, expect, test } from 'vitest';
import type { LoggedEvent } from '../../../src/core/log/event-log.ts';
import { Database } from '../../../src/edges/store/database.ts';
import {
  finishRecord,
  listFinished,
  runningRecord,
} from '../../../src/edges/store/finished-records.ts';
import { openIndexedLog } from '../../../src/edges/store/indexed-log.ts';
import { deleteRecord, listRecords } from '../../../src/edges/store/records.ts';
import { Pen } from '../../arbitraries/written.ts';

const pen = new Pen();
const note = (): LoggedEvent =>
  pen.logged({ kind: 'visit-noted', nest: pen.nestId('N-1'), details: { surface: 'dip' } });

let database: Database;
beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  database = new Database('firstdark');
});

async function running(): Promise<string> {
  const found = await runningRecord('own', database);
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

async function write(name: string, events: readonly LoggedEvent[]): Promise<void> {
  const log = await openIndexedLog(name, { database });
  const added = await log.append(events);
  await log.close();
  if (!added.ok) throw new Error(added.problem.message);
}

test('a season is written to one record until that is finished, then to the next', async () => {
  expect(await running()).toBe('own');
  await write('own', [note()]);
  expect(await running()).toBe('own');
  await finishRecord({ name: 'own', of: 'own', title: 'Season 2025' }, database);
  expect(await running()).toBe('own 2');
  await write('own 2', [note(), note()]);
  expect(await running()).toBe('own 2');
  await finishRecord({ name: 'own 2', of: 'own', title: 'Season 2026' }, database);
  expect(await running()).toBe('own 3');
});

test('a finished season keeps its events and is listed by its title', async () => {
  await write('own', [note(), note()]);
  await finishRecord({ name: 'own', of: 'own', title: 'Season 2025' }, database);
  await finishRecord({ name: 'earlier 1', of: 'own', title: 'Season 2024' }, database);
  await write('earlier 1', [note()]);
  await write('own 2', [note()]);
  expect(await listFinished(database)).toEqual({
    ok: true,
    value: [
      { name: 'earlier 1', of: 'own', title: 'Season 2024' },
      { name: 'own', of: 'own', title: 'Season 2025' },
    ],
  });
  expect(await listRecords(database)).toEqual({
    ok: true,
    value: [
      { name: 'earlier 1', events: 1 },
      { name: 'own', events: 2 },
      { name: 'own 2', events: 1 },
    ],
  });
});

test('taking a finished season off the device leaves the running one where it is', async () => {
  await write('own', [note()]);
  await finishRecord({ name: 'own', of: 'own', title: 'Season 2025' }, database);
  await write('own 2', [note()]);
  await deleteRecord('own', database);
  expect(await running()).toBe('own 2');
  expect(await listFinished(database)).toEqual({ ok: true, value: [] });
});

test('a page that still holds the finished season adds nothing to the next', async () => {
  const old = await openIndexedLog('own', { database });
  await old.append([note()]);
  await finishRecord({ name: 'own', of: 'own', title: 'Season 2025' }, database);
  await write(await running(), [note()]);
  await old.append([note()]);
  const next = await openIndexedLog('own 2', { database });
  const read = await next.read();
  expect(read.ok ? read.events.length : read.problem).toBe(1);
  expect(await listFinished(database)).toMatchObject({ value: [{ title: 'Season 2025' }] });
});
