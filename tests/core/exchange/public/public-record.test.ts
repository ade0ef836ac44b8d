import { describe, expect, test } from 'vitest';
import { darwinCoreArchive } from '../../../../src/core/exchange/darwin-core/darwin-core-archive.ts';
import { seasonGeojson } from '../../../../src/core/exchange/geojson/season-geojson.ts';
import { generalise, precisions } from '../../../../src/core/exchange/public/generalise.ts';
import { publicRecord } from '../../../../src/core/exchange/public/public-record.ts';
import { writeSeasonFolder } from '../../../../src/core/exchange/season-folder/write-season-folder.ts';
import { NightText } from '../../../../src/core/domain/night.ts';
import { fold } from '../../../../src/core/log/fold.ts';
import { read } from '../../../builders/season-files.ts';

/** A season in which everything that must not get out can be known by its word. */
const secret = {
  'programme.json': JSON.stringify({
    name: 'Invented reach',
    time_zone: 'America/New_York',
    latitude: 27.123456,
    longitude: -80.654321,
    secretKey: 'SECRET',
    zones: [{ zone: 'SECRET cove', seaward_deg: 88, latitude: 27.123457 }],
  }),
  'nests.csv':
    'nest,species,lay_night,zone,latitude,longitude,shore_m,clutch,GPS\n' +
    'W-1,Caretta caretta,2026-05-20,SECRET cove,27.123456,-80.654321,1234.5,110,SECRET 27.123456\n' +
    'W-2,,2026-05-21,SECRET cove,,,17,,\n',
  'visits.csv':
    'nest,time,observer,surface,note\nW-1,2026-07-20T21:10-04:00,SECRET Ada,dip,by the SECRET house\n',
  'orientation.csv':
    'nest,night,zone,seaward_deg,track_bearings,light_source,outcome,note,lamps\n' +
    'W-1,2026-07-20,SECRET cove,88,80;90;100,SECRET hotel,SECRET,SECRET,window/white/10/SECRET inn\n',
  'inventory.csv': 'nest,date,shells,unhatched,note\nW-1,2026-08-01,90,10,SECRET\n',
  'conditions.csv': 'date,zone,sand_c\n2026-07-01,SECRET cove,29.5\n',
  'volunteers.csv': 'volunteer,experience\nSECRET Ada,lead\n',
  'availability.csv': 'volunteer,night\nSECRET Ada,2026-07-20\n',
};
const { events, zone } = read(secret);
const record = fold(events, zone);

describe.each(precisions)('a season for the public, rounded to %s degree', (precision) => {
  const open = publicRecord(record, precision);
  const texts = [
    ...writeSeasonFolder(open, { guard: true }).values(),
    seasonGeojson(open, precision),
    ...darwinCoreArchive(open, precision, NightText.parse('2026-09-01')).values(),
  ];

  test('gives away no exact position, person, name of a place or remark in any format', () => {
    expect(texts.length).toBeGreaterThan(8);
    for (const text of texts) {
      expect(text).not.toContain('SECRET');
      expect(text).not.toContain('27.1234');
      expect(text).not.toContain('80.6543');
      expect(text).not.toContain('1234.5');
    }
  });

  test('keeps what can be shown', () => {
    const folder = writeSeasonFolder(open, { guard: true });
    expect([...folder.keys()].sort()).toEqual([
      'conditions.csv',
      'inventory.csv',
      'nests.csv',
      'orientation.csv',
      'programme.json',
      'visits.csv',
    ]);
    expect(folder.get('nests.csv')).toContain('W-1,Caretta caretta,2026-05-20');
    expect(folder.get('nests.csv')).toContain(`coordinates rounded to ${precision} degree`);
    expect(folder.get('orientation.csv')).toContain('80;90;100');
    expect(folder.get('conditions.csv')).toContain('zone 1');
  });
});

describe('rounding a position', () => {
  // Chapman 2020 (GBIF), as quoted in public code: 15,691, 1,570 and 157 m, and 30 m for the receiver.
  test('goes to the nearest step, with what it adds to the uncertainty', () => {
    expect(generalise(27.123456, -80.654321, 0.1)).toEqual({
      latitude_deg: 27.1,
      longitude_deg: -80.7,
      uncertainty_m: 15_721,
    });
    expect(generalise(27.123456, -80.654321, 0.01)).toMatchObject({
      latitude_deg: 27.12,
      uncertainty_m: 1600,
    });
    expect(generalise(-27.1235, 0.0004, 0.001)).toEqual({
      latitude_deg: -27.124,
      longitude_deg: 0,
      uncertainty_m: 187,
    });
  });

  test('gives the same place every time: nothing is drawn at random', () => {
    const once = JSON.stringify([
      ...writeSeasonFolder(publicRecord(record, 0.01), { guard: true }),
    ]);
    const again = JSON.stringify([
      ...writeSeasonFolder(publicRecord(record, 0.01), { guard: true }),
    ]);
    expect(again).toBe(once);
  });
});

test('a corrected position and a withdrawn note leave nothing of themselves behind', () => {
  const nest = events.find(({ kind }) => kind === 'nest-registered');
  const visit = events.find(({ kind }) => kind === 'visit-noted');
  if (nest === undefined || visit === undefined) throw new Error('both are there');
  const envelope = { schema: 1, at: visit.at, written: visit.written, author: 'x', device: 'x' };
  const amended = fold(
    [
      ...events,
      {
        ...envelope,
        id: '01988888-0000-7000-8000-000000000001',
        kind: 'corrected',
        target: nest.id,
        changes: { latitude: 28.5 },
      },
      {
        ...envelope,
        id: '01988888-0000-7000-8000-000000000002',
        kind: 'withdrawn',
        target: visit.id,
      },
    ] as typeof events,
    zone,
  );
  const open = publicRecord(amended, 0.1);
  const folder = writeSeasonFolder(open, { guard: false });
  expect(folder.get('nests.csv')).toContain(',28.5,');
  expect(folder.has('visits.csv')).toBe(false);
  expect([...open.events.values()].every(({ author }) => author === '')).toBe(true);
});
