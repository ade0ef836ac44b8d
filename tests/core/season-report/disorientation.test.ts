import { describe, expect, test } from 'vitest';
import { astrayOf, disorientationBy } from '../../../src/core/season-report/disorientation.ts';
import { wholeSeason } from '../../../src/core/season-report/season-window.ts';
import { successByZone, successesOf } from '../../../src/core/season-report/successes.ts';
import { night } from '../../builders/season.ts';
import { orientation, toldSeason } from './told-season.ts';

// New moon on 15 June and full moon on 29 June 2026 (almanac, from memory; checked by core/sky).
const { record } = toldSeason([
  orientation('met', '2026-06-29', {
    tracks_counted: 40,
    disoriented: 10,
    lamps: ['street lamp/white/215/by the car park', 'street lamp/white/190', 'window/yellow'],
  }),
  orientation('missed', '2026-06-15', {
    tracks_counted: 20,
    disoriented: 15,
    light_source: 'hotel',
  }),
  orientation('missed', '2026-06-16', { disoriented: 3, zone: 'North' }),
]);

describe('who went astray', () => {
  const records = astrayOf(record, wholeSeason);

  test('by place: the zone of the record, else of the nest; the share of records that say both', () => {
    expect(disorientationBy(records, 'zone')).toMatchObject([
      { of: 'South', records: 1, withAstray: 1, counted: 20, astray: 15, share: { share: 0.75 } },
      { of: 'North', records: 2, withAstray: 2, counted: 40, astray: 10, share: { share: 0.25 } },
    ]);
  });

  test('by lamp: one kind and colour counts once for a record, words stand as written', () => {
    const groups = disorientationBy(records, 'lamp').map(({ of, counted }) => [of, counted]);
    expect(groups).toEqual([
      ['hotel', 20],
      ['white street lamp', 40],
      ['yellow window', 40],
      ['no lamp noted', 0],
    ]);
  });

  test('by moon as the sky had it', () => {
    const groups = disorientationBy(records, 'moon').map(({ of, records: n }) => [of, n]);
    expect(groups).toEqual([
      ['dark', 2],
      ['bright moon', 1],
    ]);
  });

  test('in a window of dates', () => {
    const late = { ...wholeSeason, from: night('2026-06-20') };
    expect(astrayOf(record, late).map(({ nest }) => nest)).toEqual(['met']);
  });
});

test('success is given by zone and together, by the inventories that allow it', () => {
  const successes = successesOf(record, wholeSeason);
  expect(successes.map(({ nest }) => nest)).toEqual(['met', 'never', 'unseen', 'untold']);
  const { zones, all } = successByZone(successes);
  expect(zones.map(({ zone, inventories, hatch }) => [zone, inventories, hatch?.n ?? 0])).toEqual([
    ['North', 2, 2],
    ['South', 1, 1],
    [null, 1, 0],
  ]);
  expect(zones[0]?.hatch?.mean).toBeCloseTo(0.4, 12);
  expect(zones[0]?.emergence?.mean).toBeCloseTo(0.35, 12);
  expect(all.inventories).toBe(4);
  expect(all.hatch?.mean).toBeCloseTo((0.8 + 0 + 60 / 90) / 3, 12);
});
