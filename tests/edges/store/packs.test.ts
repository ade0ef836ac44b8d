import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { beforeEach, expect, test } from 'vitest';
import { eventsInText } from '../../../src/core/log/checked-text.ts';
import { type EventLog, idOf, type LoggedEvent } from '../../../src/core/log/event-log.ts';
import { rawOf, readEvent } from '../../../src/core/log/upcast.ts';
import { Database } from '../../../src/edges/store/database.ts';
import { openIndexedLog } from '../../../src/edges/store/indexed-log.ts';
import { type Pack, wholePacks } from '../../../src/edges/store/packs.ts';
import { deleteRecord } from '../../../src/edges/store/records.ts';
import { EVENTS, PACKS, RECORDS, upgradeSteps } from '../../../src/edges/store/upgrade-steps.ts';
import { Pen } from '../../arbitraries/written.ts';

let pen = new Pen();
/** What was put off until nobody waits. */
let putOff: (() => void)[] = [];

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  pen = new Pen();
  putOff = [];
});

const note = (text = 'a dip'): LoggedEvent =>
  pen.logged({ kind: 'visit-noted', nest: pen.nestId('N-1'), details: { note: text } });
const notes = (count: number): LoggedEvent[] => Array.from({ length: count }, () => note());

/** A page of its own, of the version named. */
function open(checkedBy: string | null = 'this one'): Promise<EventLog> {
  const later = (work: () => void): void => void putOff.push(work);
  return openIndexedLog('own', { database: new Database('firstdark'), checkedBy, later });
}

interface Reading {
  readonly events: readonly LoggedEvent[];
  /** The ids that were told ahead. */
  readonly ahead: readonly string[];
}

/** Reads the log as a page does that has just been opened. */
async function reading(checkedBy?: string | null): Promise<Reading> {
  let texts: readonly string[] = [];
  const decoder = new TextDecoder();
  const log = await open(checkedBy);
  const read = await log.read((told) => {
    texts = told.map((text) => decoder.decode(text));
  });
  if (!read.ok) throw new Error(read.problem.message);
  // Of a copy that turned out to be damaged nothing counts as told.
  const ahead =
    (read.told ?? 0) === 0 ? [] : texts.flatMap((text) => eventsInText(text).map(({ id }) => id));
  expect(read.events.slice(0, read.told ?? 0).map(idOf)).toEqual(ahead);
  return { events: read.events, ahead };
}

const ids = (events: readonly LoggedEvent[]): readonly string[] => events.map(idOf).sort();

async function packs(): Promise<readonly Pack[]> {
  const connection = await openDB('firstdark');
  const found: unknown[] = await connection.getAll(PACKS);
  const count = await connection.count(EVENTS);
  connection.close();
  const whole = wholePacks(found, count);
  if (whole === null) throw new Error('The copies are not of all events.');
  return whole;
}

/** Changes something behind the back of the app. */
async function meddle(store: string, change: (value: never) => unknown): Promise<void> {
  const connection = await openDB('firstdark');
  for (const key of await connection.getAllKeys(store)) {
    const value = change((await connection.get(store, key)) as never);
    if (value === undefined) await connection.delete(store, key);
    else await connection.put(store, value, key);
  }
  connection.close();
}

/** Does what was put off, and waits until it is done. */
async function tidyUp(): Promise<void> {
  for (const work of putOff.splice(0)) work();
  await new Promise((resolve) => setTimeout(resolve, 50));
}

test('what was appended is told ahead when a page opens, and read without a look at each entry', async () => {
  const events = notes(5);
  await (await open()).append(events);
  // Were the entries read, this is what would come.
  await meddle(EVENTS, () => 'not looked at');
  const { events: read, ahead } = await reading();
  expect(read.map(rawOf)).toEqual(events.map(rawOf));
  expect(ahead).toEqual(events.map(idOf));
});

test('what this version cannot read, or not all of, comes as it lies there and is not told ahead', async () => {
  const known = note();
  const future = { id: 'from-the-future', schema: 99, colour: 'red' };
  const more = {
    ...(known.state === 'known' ? known.event : null),
    id: idOf(note()),
    mood: 'calm',
  };
  await (await open()).append([known, readEvent(future), readEvent(more), readEvent('damaged {')]);
  const { events, ahead } = await reading();
  expect(ahead).toEqual([idOf(known)]);
  const lies = events.map((entry) => JSON.stringify(rawOf(entry))).sort();
  expect(lies).toEqual(
    [rawOf(known), future, more, 'damaged {'].map((raw) => JSON.stringify(raw)).sort(),
  );
});

test('a version that cannot be named, or another one, checks every event', async () => {
  const events = notes(3);
  await (await open('the one before')).append(events);
  for (const version of [null, 'this one']) {
    const read = await reading(version);
    expect([read.ahead, ids(read.events)]).toEqual([[], ids(events)]);
  }
});

test('what an older version took for whole and this one does not is named, not believed', async () => {
  await (await open('the one before')).append(notes(1));
  await meddle(PACKS, (pack: { plain: Uint8Array }) => {
    const text = new TextDecoder().decode(pack.plain).replace('visit-noted', 'visit-dreamt');
    return { ...pack, plain: new TextEncoder().encode(text) };
  });
  const { events } = await reading();
  expect(events.map(({ state }) => state)).toEqual(['foreign']);
});

test('after an update the next opening is quick again', async () => {
  const events = notes(3);
  await (await open('the one before')).append(events);
  await reading();
  await tidyUp();
  expect(ids((await reading()).events)).toEqual([...(await reading()).ahead].sort());
});

test('a record of the version that kept no copies is read whole, and copied', async () => {
  const old = await openDB('firstdark', 1, {
    upgrade: (database) => upgradeSteps[0]?.run(database),
  });
  const events = notes(4);
  for (const event of events) await old.put(EVENTS, rawOf(event), ['own', idOf(event)]);
  await old.put(RECORDS, { name: 'own' }, 'own');
  old.close();
  const first = await reading();
  expect([ids(first.events), first.ahead]).toEqual([ids(events), []]);
  // One more is noted before the copies are made.
  await (await open()).append([note()]);
  await tidyUp();
  await tidyUp();
  const second = await reading();
  expect(second.events).toHaveLength(5);
  await tidyUp();
  expect((await reading()).ahead).toHaveLength(5);
});

test.each([
  ['cut short', (pack: { plain: Uint8Array }) => ({ ...pack, plain: pack.plain.slice(0, -3) })],
  ['short of an event', (pack: object) => ({ ...pack, plain: new Uint8Array() })],
  ['no copy at all', () => ({ mist: true })],
  ['gone', () => undefined],
])('a copy that is %s costs time and no event', async (_, change) => {
  const events = notes(4);
  await (await open()).append(events);
  await meddle(PACKS, change);
  expect(ids((await reading()).events)).toEqual(ids(events));
  await tidyUp();
  expect((await reading()).ahead.slice().sort()).toEqual(ids(events));
});

test('a season of single notes ends up in few copies, and a long import in several', async () => {
  const log = await open();
  const [single, many] = [notes(60), notes(4500)];
  for (const event of single) await log.append([event]);
  await log.append(many);
  expect((await packs()).length).toBe(63);
  const all = ids([...single, ...many]);
  expect(ids((await reading()).events)).toEqual(all);
  await tidyUp();
  expect((await packs()).map(({ events }) => events).sort((a, b) => a - b)).toEqual([
    60, 500, 2000, 2000,
  ]);
  const { events, ahead } = await reading();
  expect([ids(events), [...ahead].sort()]).toEqual([all, all]);
});

test('a deleted record leaves no copy behind', async () => {
  await (await open()).append(notes(2));
  await deleteRecord('own', new Database('firstdark'));
  expect(await packs()).toEqual([]);
});

test('what two pages append while a third sets in order is lost by none', async () => {
  const [ada, bo] = [await open(), await open()];
  const events = notes(150);
  for (const event of events.slice(0, 50)) await ada.append([event]);
  await reading();
  for (const work of putOff.splice(0)) work();
  await Promise.all(
    events.slice(50).map((event, index) => (index % 2 === 0 ? ada : bo).append([event])),
  );
  await tidyUp();
  expect(ids((await reading()).events)).toEqual(ids(events));
  expect(await packs()).not.toEqual([]);
});
