import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type EventLog, type LoggedEvent, idOf } from '../../../src/core/log/event-log.ts';
import { Database } from '../../../src/edges/store/database.ts';
import { openIndexedLog } from '../../../src/edges/store/indexed-log.ts';
import { deleteRecord, listRecords } from '../../../src/edges/store/records.ts';
import { type UpgradeStep, upgradeSteps } from '../../../src/edges/store/upgrade-steps.ts';
import { Pen } from '../../arbitraries/written.ts';
import { eventLogSuite } from '../../suites/event-log-suite.ts';

/** A page of its own: its own connection to the same store. */
const page = (steps?: readonly UpgradeStep[]): Database => new Database('firstdark', steps);
const newer: readonly UpgradeStep[] = [
  ...upgradeSteps,
  { to: upgradeSteps.length + 1, name: 'of a newer version', run: () => undefined },
];

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});
afterEach(() => {
  vi.restoreAllMocks();
});

eventLogSuite('in the browser’s store', () =>
  Promise.resolve({ open: () => openIndexedLog('own', { database: page() }), isShared: true }),
);

eventLogSuite('in the browser’s store, which trusts what it has checked', () =>
  Promise.resolve({
    open: () => openIndexedLog('own', { database: page(), checkedBy: 'this one' }),
    isShared: true,
  }),
);

const pen = new Pen();
const note = (): LoggedEvent =>
  pen.logged({ kind: 'visit-noted', nest: pen.nestId('N-1'), details: { surface: 'dip' } });

async function idsIn(log: EventLog): Promise<readonly string[]> {
  const read = await log.read();
  if (!read.ok) throw new Error(read.problem.message);
  return read.events.map(idOf).sort();
}

const heard = (log: EventLog): Promise<void> =>
  new Promise((resolve) => {
    const stop = log.watch(() => {
      stop();
      resolve();
    });
  });

describe('several records on one device', () => {
  test('are kept apart, listed and deleted by name', async () => {
    const database = page();
    const [own, invented] = [note(), note()];
    await (await openIndexedLog('own', { database: database })).append([own]);
    await (await openIndexedLog('invented', { database: database })).append([invented, note()]);
    expect(await listRecords(database)).toEqual({
      ok: true,
      value: [
        { name: 'invented', events: 2 },
        { name: 'own', events: 1 },
      ],
    });
    expect(await deleteRecord('invented', database)).toEqual({ ok: true, value: null });
    expect(await idsIn(await openIndexedLog('invented', { database: database }))).toEqual([]);
    expect(await idsIn(await openIndexedLog('own', { database: database }))).toEqual([idOf(own)]);
    expect(await listRecords(database)).toEqual({ ok: true, value: [{ name: 'own', events: 1 }] });
  });

  test('one that was deleted in another tab is not begun again behind the back of this one', async () => {
    const log = await openIndexedLog('own', { database: page() });
    await log.append([note()]);
    const told = heard(log);
    await deleteRecord('own', page());
    await told;
    expect(await log.append([note()])).toMatchObject({ ok: false, problem: { kind: 'closed' } });
    const read = await log.read();
    expect(!read.ok && read.problem.message).toContain('save a backup now');
  });
});

describe('a store that refuses', () => {
  test('when it is full: all that was saved stays, nothing of the batch, and it says what to do', async () => {
    const log = await openIndexedLog('own', { database: page() });
    const first = note();
    await log.append([first]);
    const put = vi.spyOn(IDBObjectStore.prototype, 'put');
    let puts = 0;
    put.mockImplementation(function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
      puts += 1;
      if (puts === 2) throw new DOMException('no room', 'QuotaExceededError');
      return key === undefined ? this.add(value) : this.add(value, key);
    });
    const batch = [note(), note(), note()];
    const appended = await log.append(batch);
    expect(appended).toMatchObject({ ok: false, problem: { kind: 'full' } });
    expect(!appended.ok && appended.problem.message).toContain('Save a backup');
    put.mockRestore();
    expect(await idsIn(await openIndexedLog('own', { database: page() }))).toEqual([idOf(first)]);
    expect(await log.append(batch)).toEqual({ ok: true, added: 3 });
  });

  test('when the transaction fails as it is written: nothing of it counts as saved', async () => {
    const log = await openIndexedLog('own', { database: page() });
    const put = vi.spyOn(IDBObjectStore.prototype, 'put');
    put.mockImplementation(function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
      const request = key === undefined ? this.add(value) : this.add(value, key);
      request.addEventListener('success', () => this.transaction.abort());
      return request;
    });
    const [first] = [note()];
    expect(await log.append([first])).toMatchObject({ ok: false });
    put.mockRestore();
    expect(await idsIn(log)).toEqual([]);
    expect(await log.append([first])).toEqual({ ok: true, added: 1 });
  });

  test('where there is none, it says that a private window may be why', async () => {
    vi.stubGlobal('indexedDB', undefined);
    const log = await openIndexedLog('own', { database: page() });
    const appended = await log.append([note()]);
    expect(appended).toMatchObject({ ok: false, problem: { kind: 'failed' } });
    expect(!appended.ok && appended.problem.message).toContain('private window');
    vi.unstubAllGlobals();
  });

  test('where opening is refused, likewise', async () => {
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('The operation is insecure.', 'SecurityError');
    });
    const log = await openIndexedLog('own', { database: page() });
    expect(await log.read()).toMatchObject({ ok: false, problem: { kind: 'failed' } });
  });
});

describe('other versions of the page', () => {
  test('a newer one takes over: this one says to reload, is told, and has lost nothing', async () => {
    const log = await openIndexedLog('own', { database: page() });
    const first = note();
    await log.append([first]);
    const told = heard(log);
    const later = await openIndexedLog('own', { database: page(newer) });
    await told;
    expect(await idsIn(later)).toEqual([idOf(first)]);
    const appended = await log.append([note()]);
    expect(appended).toMatchObject({ ok: false, problem: { kind: 'outdated' } });
    expect(!appended.ok && appended.problem.message).toContain('Reload this page');
  });

  test('an older page that opens a newer record says to reload', async () => {
    await openIndexedLog('own', { database: page(newer) });
    const log = await openIndexedLog('own', { database: page() });
    expect(await log.read()).toMatchObject({ ok: false, problem: { kind: 'outdated' } });
  });

  test('one that does not make way blocks the upgrade until it is closed', async () => {
    const stubborn = await openDB('firstdark', upgradeSteps.length, {
      upgrade: (database) => upgradeSteps.forEach((step) => step.run(database)),
    });
    const log = await openIndexedLog('own', { database: page(newer) });
    const appended = await log.append([note()]);
    expect(appended).toMatchObject({ ok: false, problem: { kind: 'blocked' } });
    expect(!appended.ok && appended.problem.message).toContain('Close the other tabs');
    stubborn.close();
    await vi.waitFor(async () => expect(await log.append([note()])).toMatchObject({ ok: true }));
  });

  test('upgrade steps that skip a number are refused', () => {
    const skipping = [...upgradeSteps, { to: 4, name: 'too far', run: () => undefined }];
    expect(() => page(skipping)).toThrow('"too far" is numbered 4, wanted 3');
  });
});

describe('a connection that the browser shuts', () => {
  test('is opened again once, and nothing is lost', async () => {
    const log = await openIndexedLog('own', { database: page() });
    const [first, second] = [note(), note()];
    await log.append([first]);
    const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction');
    transaction.mockImplementationOnce(() => {
      throw new DOMException('The database connection is closing.', 'InvalidStateError');
    });
    expect(await log.append([second])).toEqual({ ok: true, added: 1 });
    expect(await idsIn(log)).toEqual([idOf(first), idOf(second)]);
  });

  test('and that cannot be opened again says so', async () => {
    const log = await openIndexedLog('own', { database: page() });
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(() => {
      throw new DOMException('The database connection is closing.', 'InvalidStateError');
    });
    expect(await log.append([note()])).toMatchObject({ ok: false, problem: { kind: 'closed' } });
  });

  test('because its data were erased: what this page still holds is to be saved, not begun anew', async () => {
    const log = await openIndexedLog('own', { database: page() });
    await log.append([note()]);
    globalThis.indexedDB = new IDBFactory();
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementationOnce(() => {
      throw new DOMException('The database connection is closing.', 'InvalidStateError');
    });
    const appended = await log.append([note()]);
    expect(!appended.ok && appended.problem.message).toContain('save a backup now');
  });
});
