import { describe, expect, test } from 'vitest';
import { reconcile } from '../../../src/core/exchange/reconcile/reconcile.ts';
import type { SeasonEvent } from '../../../src/core/domain/event.ts';
import { fold, foldOn } from '../../../src/core/log/fold.ts';
import type { SeasonRecord } from '../../../src/core/log/season-record.ts';
import { eventIdOfRow } from '../../../src/core/log/event-id.ts';
import { formatInstant } from '../../../src/core/domain/instant.ts';
import { NOON_MS, importer, read } from '../../builders/season-files.ts';

type Folder = Readonly<Record<string, string>>;
const DAY_MS = 86_400_000;

const season: Folder = {
  'programme.json': '{"name":"Invented","time_zone":"America/New_York"}',
  'nests.csv': 'nest,lay_night,clutch,Colour\nW-1,2026-05-20,110,red\nW-2,,,\n',
  'visits.csv':
    'nest,time,kind,observer,surface\nW-1,2026-07-20T21:10-04:00,evening,Ada,dip\nW-2,2026-07-20T21:20-04:00,evening,Ada,smooth\n',
  'volunteers.csv': 'volunteer,experience\nAda,lead\n',
  'conditions.csv': 'date,zone,sand_c\n2026-07-20,,29.5\n',
};

/** A record after a folder was imported into it, `day` days on, and what the import said. */
function imported(record: SeasonRecord, folder: Folder, day = 0) {
  const now_ms = NOON_MS + day * DAY_MS;
  const outcome = reconcile(read(folder, record), record, { ...importer, now_ms });
  return { ...outcome, record: foldOn(record, outcome.events) };
}

const empty = fold([]);
const first = imported(empty, season).record;
const with_ = (changes: Folder): Folder => ({ ...season, ...changes });
const nest = (record: SeasonRecord, id: string) =>
  [...record.nests.values()].find((entry) => entry.nest.id === id);

/** A correction made by hand in the app. */
function byHand(target: string, changes: Record<string, unknown>, day: number): SeasonEvent {
  const at = formatInstant(NOON_MS + day * DAY_MS, importer.zone);
  const id = eventIdOfRow(NOON_MS + day * DAY_MS, JSON.stringify([target, changes]));
  const envelope = { id, schema: 1, at, written: at, author: 'Bo', device: 'phone' } as const;
  const original = [...first.events.keys()].find((known) => known === target);
  if (original === undefined) throw new Error('no such event');
  return { ...envelope, kind: 'corrected', target: first.events.get(target)!.id, changes };
}

describe('importing a season folder', () => {
  test('into an empty record takes every row as new', () => {
    const { counts } = imported(empty, season);
    expect(counts).toMatchObject({
      nests: { fresh: 2, corrected: 0, same: 0 },
      visits: { fresh: 2, corrected: 0, same: 0 },
    });
  });

  test('again, on another day, adds nothing', () => {
    expect(imported(first, season, 3).events).toEqual([]);
  });

  test('on two devices gives the same events, so that their logs merge into one season', () => {
    const other = reconcile(read(season), empty, {
      ...importer,
      device: 'other',
      now_ms: NOON_MS + 9 * DAY_MS,
    });
    expect(other.events.map(({ id }) => id).sort()).toEqual([...first.events.keys()].sort());
  });

  test('with another order of rows and columns, and other spellings, adds no rows', () => {
    const { counts } = imported(
      first,
      with_({
        'nests.csv': 'clutch,nest,lay_night\n,W-2,\n110.0,W-1,2026-05-20\n',
        'visits.csv':
          'nest,time,kind,observer,surface\nW-2,2026-07-21T01:20Z,Evening,Ada,SMOOTH\nW-1,2026-07-20 21:10,evening,Ada,dip\n',
      }),
    );
    expect(counts).toMatchObject({
      nests: { fresh: 0, corrected: 0, same: 2 },
      visits: { fresh: 0, corrected: 0, same: 2 },
    });
  });

  test('corrects just the fields that changed', () => {
    const { events, counts, record } = imported(
      first,
      with_({
        'nests.csv': 'nest,lay_night,clutch,Colour\nW-1,2026-05-21,110,red\nW-2,,,\n',
        'visits.csv': season['visits.csv']!.replace('dip', 'depression'),
        'volunteers.csv': 'volunteer,experience\nAda,trained\n',
        'conditions.csv': 'date,zone,sand_c\n2026-07-20,,30\n',
      }),
      1,
    );
    expect(
      events.map((event) => (event.kind === 'corrected' ? event.changes : event.kind)),
    ).toEqual([
      { lay_night: '2026-05-21' },
      { experience: 'trained' },
      { surface: 'depression' },
      { sand_c: 30 },
    ]);
    expect(counts.nests).toEqual({ fresh: 0, corrected: 1, same: 1 });
    expect(nest(record, 'W-1')?.visits.map(({ surface }) => surface)).toEqual(['depression']);
    expect(record.conditions.map(({ fact }) => fact.details.sand_c)).toEqual([30]);
  });

  test('adds the nests and visits that are new, beside those that stand', () => {
    const { counts } = imported(
      first,
      with_({
        'nests.csv': `${season['nests.csv']}W-3,,,\n`,
        'visits.csv': `${season['visits.csv']}W-3,2026-07-21T21:00-04:00,evening,Ada,dip\n`,
      }),
    );
    expect(counts).toMatchObject({ nests: { fresh: 1, same: 2 }, visits: { fresh: 1, same: 2 } });
  });

  test('there and back again ends where it began', () => {
    const changed = with_({ 'nests.csv': season['nests.csv']!.replace('110', '99') });
    const second = imported(first, changed, 1).record;
    expect(nest(second, 'W-1')?.nest.clutch_eggs).toBe(99);
    const third = imported(second, season, 2).record;
    expect(nest(third, 'W-1')?.nest.clutch_eggs).toBe(110);
    expect(imported(third, season, 3).events).toEqual([]);
  });

  test('never undoes what a person corrected by hand since', () => {
    const target = nest(first, 'W-1')?.registration.original.id ?? '';
    const corrected = foldOn(first, [byHand(target, { clutch: 120 }, 1)]);
    expect(imported(corrected, season, 2).events).toEqual([]);
    const elsewhere = with_({ 'nests.csv': season['nests.csv']!.replace('05-20', '05-22') });
    const { record, events } = imported(corrected, elsewhere, 3);
    expect(events).toMatchObject([{ changes: { lay_night: '2026-05-22' } }]);
    expect(nest(record, 'W-1')?.nest.clutch_eggs).toBe(120);
  });

  test('does not bring back what was withdrawn', () => {
    const visit = nest(first, 'W-1')?.visits[0];
    const at = formatInstant(NOON_MS + DAY_MS, importer.zone);
    const withdrawn = foldOn(first, [
      {
        id: eventIdOfRow(NOON_MS + DAY_MS, 'withdrawn'),
        schema: 1,
        at,
        written: at,
        author: 'Bo',
        device: 'phone',
        kind: 'withdrawn',
        target: [...first.events.values()].find(({ id }) => id === visit?.id)!.id,
      },
    ]);
    const { record, events } = imported(withdrawn, season, 2);
    expect(events).toEqual([]);
    expect(nest(record, 'W-1')?.visits).toEqual([]);
  });

  test('a column that the file does not have changes nothing; a cell emptied since takes its value away', () => {
    const fewer = with_({ 'nests.csv': 'nest,lay_night\nW-1,2026-05-20\nW-2,\n' });
    expect(imported(first, fewer).counts.nests).toEqual({ fresh: 0, corrected: 0, same: 2 });
    const emptied = with_({ 'nests.csv': season['nests.csv']!.replace('110', '') });
    const { record } = imported(first, emptied, 1);
    expect(nest(record, 'W-1')?.nest.clutch_eggs).toBeNull();
  });

  test('a changed cell of an unknown column comes out changed', () => {
    const blue = with_({ 'nests.csv': season['nests.csv']!.replace('red', 'blue') });
    const { record, counts } = imported(first, blue, 1);
    expect(counts.nests?.corrected).toBe(1);
    expect(nest(record, 'W-1')?.registration.amendments[0]?.event.source?.extra).toEqual({
      Colour: 'blue',
    });
    expect(imported(record, blue, 2).events).toEqual([]);
  });

  test('a programme that changed is described anew; the old one again adds nothing', () => {
    const renamed = with_({
      'programme.json': '{"name":"Renamed","time_zone":"America/New_York"}',
    });
    const { record, events } = imported(first, renamed, 1);
    expect(events.map(({ kind }) => kind)).toEqual(['programme-described']);
    expect(record.programme.name).toBe('Renamed');
    expect(imported(record, renamed, 2).events).toEqual([]);
  });

  test('visits alone can be imported once their nests stand', () => {
    const alone = { 'visits.csv': 'nest,time\nW-1,2026-07-22T21:00\nW-9,2026-07-22T21:00\n' };
    const outcome = read(alone, first);
    expect(outcome.problems.map(({ row, column }) => [row, column])).toEqual([[3, 'nest']]);
    expect(imported(first, alone).counts.visits).toEqual({ fresh: 1, corrected: 0, same: 0 });
  });
});
