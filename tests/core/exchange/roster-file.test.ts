import { describe, expect, test } from 'vitest';
import { reconcile } from '../../../src/core/exchange/reconcile/reconcile.ts';
import { revisedNights } from '../../../src/core/exchange/revised-nights.ts';
import { writeSeasonFolder } from '../../../src/core/exchange/season-folder/write-season-folder.ts';
import { publicRecord } from '../../../src/core/exchange/public/public-record.ts';
import { fold, foldOn } from '../../../src/core/log/fold.ts';
import { type EventBody, writeEvent } from '../../../src/core/log/write-event.ts';
import { NOON_MS, importer, read } from '../../builders/season-files.ts';

const tables = {
  'nests.csv': 'nest,lay_night\nW-1,2026-05-20\nW-2,2026-05-21\n',
  'volunteers.csv':
    'volunteer,experience,zones,max_shifts_week,team\nAda,lead,,,\nBo,trained,,3,\n',
};
const { events, zone } = read(tables);
let drawn = 0;
const event = (body: EventBody) =>
  writeEvent(body, {
    now_ms: NOON_MS + drawn * 60_000,
    random: new Uint8Array(16).fill(++drawn),
    author: 'Bo',
    device: 'phone',
    zone,
  }).event;

const night = '2026-07-21';
const post = {
  watch: 'evening',
  nests: ['W-1'],
  from: '2026-07-21T20:20-04:00',
  to: '2026-07-22T01:00-04:00',
  sitters: ['Ada', 'Bo'],
  value: 0.25,
};
const pattern = event({
  kind: 'weekly-pattern-given',
  volunteer: 'Ada',
  details: { days: [{ weekday: 2, from: '21:00' }, { weekday: 5 }], last_night: night },
} as EventBody);
const sight = event({
  kind: 'sight-judged',
  details: { nests: ['W-1', 'W-2'], together: false },
} as EventBody);
const pin = (volunteer: string | null) =>
  event({
    kind: 'pinned',
    details: { night, watch: 'evening', at_nest: 'W-1', volunteer },
  } as EventBody);
const [kept, released] = [pin('Ada'), pin(null)];
const release = event({ kind: 'withdrawn', target: released.id, reason: 'released' });
const given = [[post], [{ ...post, sitters: ['Ada'] }]].map((posts) =>
  event({ kind: 'night-published', details: { night, posts } } as EventBody),
);
const record = foldOn(
  fold(events, zone),
  [pattern, sight, kept, released, release, ...given],
  zone,
);
const written = Object.fromEntries(writeSeasonFolder(record, { guard: true }));

describe('who sits where, in a season folder', () => {
  test('comes out beside the tables and back in, event for event', () => {
    const back = read(written);
    expect(back.problems).toEqual([]);
    const again = fold(back.events, back.zone);
    expect(again.weeklyPatterns).toEqual(record.weeklyPatterns);
    expect(again.sights).toEqual(record.sights);
    expect(again.pins.map(({ fact }) => fact)).toEqual([kept]);
    expect(again.published).toEqual(record.published);
    // Calendars count the versions of a shift; they go on where they were.
    expect(revisedNights(again)).toEqual(revisedNights(record));
    expect(revisedNights(again)[0]?.revisions).toHaveLength(2);
    expect(Object.fromEntries(writeSeasonFolder(again, { guard: true }))).toEqual(written);
  });

  test('joins another record once, and adds nothing the second time', () => {
    const other = fold(events, zone);
    const first = reconcile(read(written, other), other, importer);
    expect(first.events.map(({ id }) => id).sort()).toEqual(
      [pattern, sight, kept, released, release, ...given].map(({ id }) => id).sort(),
    );
    const joined = foldOn(other, first.events, zone);
    expect(reconcile(read(written, joined), joined, importer).events).toEqual([]);
  });

  test('is not there when nothing is settled, and none of it is for the public', () => {
    expect([...writeSeasonFolder(fold(events, zone), { guard: true }).keys()]).toEqual([
      'nests.csv',
      'volunteers.csv',
    ]);
    const open = publicRecord(record, 0.01);
    expect([...writeSeasonFolder(open, { guard: true }).keys()]).not.toContain('roster.json');
  });

  test('that cannot be read is told entry by entry, and the rest is taken', () => {
    const spoilt = {
      ...tables,
      'roster.json': JSON.stringify({
        events: [pattern, { ...kept, details: { night: 'soon' } }, events[0], 7],
      }),
    };
    const { problems, events: taken } = read(spoilt);
    expect(problems.map(({ file, row, severity }) => `${file}:${row} ${severity}`)).toEqual([
      'roster.json:2 error',
      'roster.json:3 error',
      'roster.json:4 error',
    ]);
    expect(problems[1]?.message).toContain('found nest-registered; expected weekly-pattern-given');
    expect(taken).toContainEqual(pattern);
    for (const text of ['no JSON', '[]', '{"events":{}}']) {
      const none = read({ ...tables, 'roster.json': text });
      expect(none.problems.map(({ file }) => file)).toEqual(['roster.json']);
      expect(none.events).toHaveLength(events.length);
    }
  });
});
