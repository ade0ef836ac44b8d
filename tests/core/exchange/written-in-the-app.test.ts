import { expect, test } from 'vitest';
import { writeSeasonFolder } from '../../../src/core/exchange/season-folder/write-season-folder.ts';
import { NestId } from '../../../src/core/domain/nest.ts';
import { fold, foldOn } from '../../../src/core/log/fold.ts';
import { type EventBody, writeEvent } from '../../../src/core/log/write-event.ts';
import { reconcile } from '../../../src/core/exchange/reconcile/reconcile.ts';
import { NOON_MS, importer, read } from '../../builders/season-files.ts';

const folder = {
  'nests.csv': 'nest,clutch\nW-2,0110\nW-1,\n',
  'visits.csv':
    'time,nest,surface,note\n2026-07-20 21:10,W-1,DIP,"a, b"\n2026-07-19 21:10,W-2,Caved ,\n',
};
const { events, zone } = read(folder);
const season = fold(events, zone);
const nest = NestId.parse('W-1');
let drawn = 0;
const event = (body: EventBody, at_ms = NOON_MS) =>
  writeEvent(body, {
    now_ms: NOON_MS,
    at_ms,
    random: new Uint8Array(16).fill(++drawn),
    author: 'Bo',
    device: 'phone',
    zone,
  }).event;
const written = (...added: ReturnType<typeof event>[]): Record<string, string> =>
  Object.fromEntries(writeSeasonFolder(foldOn(season, added, zone), { guard: false }));

test('a visit noted in the app comes after those of the file, its new columns after the old ones', () => {
  const noted = event({
    kind: 'visit-noted',
    nest,
    details: { sound: 'steady', instrument: 'probe' },
  });
  const earlier = event({ kind: 'visit-noted', nest, details: { note: '=1' } }, NOON_MS - 3.6e6);
  expect(written(noted, earlier)['visits.csv']).toBe(
    'time,nest,surface,note,sound,instrument\n' +
      '2026-07-20 21:10,W-1,DIP,"a, b",,\n' +
      '2026-07-19 21:10,W-2,Caved ,,,\n' +
      '2026-07-20T11:00-04:00,W-1,,=1,,\n' +
      '2026-07-20T12:00-04:00,W-1,,,steady,probe\n',
  );
});

test('a corrected cell comes out with its new value, the cells around it as they were', () => {
  const target = [...season.events.values()].find(({ kind }) => kind === 'visit-noted')!.id;
  const corrected = event({ kind: 'corrected', target, changes: { surface: 'caved' } });
  expect(written(corrected)['visits.csv']).toBe(folder['visits.csv'].replace('DIP', 'caved'));
});

test('a withdrawn visit does not come out; the table stays', () => {
  const target = [...season.events.values()].find(({ kind }) => kind === 'visit-noted')!.id;
  const withdrawn = event({ kind: 'withdrawn', target });
  expect(written(withdrawn)['visits.csv']).toBe(
    'time,nest,surface,note\n2026-07-19 21:10,W-2,Caved ,\n',
  );
});

test('what went out of the app and comes back adds nothing', () => {
  const noted = event({ kind: 'visit-noted', nest, details: { emerged: 0, level_db: -3.5 } });
  const registered = event({ kind: 'nest-registered', nest: NestId.parse('W-3'), details: {} });
  const record = foldOn(season, [noted, registered], zone);
  const back = read(Object.fromEntries(writeSeasonFolder(record, { guard: true })), record);
  const { counts, events: added } = reconcile(back, record, importer);
  expect(counts).toMatchObject({
    nests: { fresh: 0, corrected: 0, same: 3 },
    visits: { fresh: 0, corrected: 0, same: 3 },
  });
  expect(added.map(({ kind }) => kind)).toEqual(['table-laid-out']);
});

test('a season that never came from a folder is written with the columns everyone expects', () => {
  const fresh = fold(
    [event({ kind: 'nest-registered', nest, details: { relocated: false } })],
    zone,
  );
  expect(Object.fromEntries(writeSeasonFolder(fresh, { guard: false }))).toEqual({
    'nests.csv':
      'nest,species,lay_night,lay_night_latest,zone,latitude,longitude,shore_m,clutch,relocated,screened,light_exposure\nW-1,,,,,,,,,no,,\n',
  });
});
