import { describe, expect, test } from 'vitest';
import type { Nest } from '../../../src/core/domain/nest.ts';
import {
  nearestNest,
  ShoreMemory,
  shoreOrder,
  stretchAround,
} from '../../../src/app/screens/note/shore-order.ts';
import { nestId } from './scratch-season.ts';

function nest(name: string, known: Partial<Nest>): Nest {
  return {
    id: nestId(name),
    species: null,
    layNight: null,
    layNightLatest: null,
    zone: null,
    latitude_deg: null,
    longitude_deg: null,
    shore_m: null,
    clutch_eggs: null,
    relocated: null,
    screened: null,
    lightExposure: null,
    ...known,
  };
}
const names = (nests: readonly Nest[]): readonly string[] => nests.map(({ id }) => id);

describe('the order of the shore', () => {
  test('goes zone by zone as the programme lists them, within a zone by metres', () => {
    const nests = [
      nest('N-2', { zone: 'North', shore_m: 20 }),
      nest('S-1', { zone: 'South', shore_m: 900 }),
      nest('N-1', { zone: 'North', shore_m: 500 }),
      nest('X-1', { zone: 'not listed', shore_m: 5 }),
      nest('S-2', { zone: 'South', shore_m: 30 }),
    ];
    expect(names(shoreOrder(nests, ['South', 'North']))).toEqual([
      'S-2',
      'S-1',
      'N-2',
      'N-1',
      'X-1',
    ]);
  });

  test('a nest with a position and no metres stands between its neighbours', () => {
    const nests = [
      nest('W-1', { shore_m: 0, latitude_deg: 27, longitude_deg: -74 }),
      nest('W-2', { shore_m: 1112, latitude_deg: 27.01, longitude_deg: -74 }),
      nest('W-3', { latitude_deg: 27.005, longitude_deg: -74 }),
    ];
    expect(names(shoreOrder(nests, []))).toEqual(['W-1', 'W-3', 'W-2']);
  });

  test('nests that nothing places come last, by number', () => {
    const nests = [nest('W-10', {}), nest('W-9', {}), nest('W-30', { shore_m: 4 })];
    expect(names(shoreOrder(nests, []))).toEqual(['W-30', 'W-9', 'W-10']);
  });
});

test('the nearest nest is found, its distance in metres', () => {
  const nests = [
    nest('W-1', { latitude_deg: 27, longitude_deg: -74 }),
    nest('W-2', { latitude_deg: 27.01, longitude_deg: -74 }),
    nest('W-3', {}),
  ];
  const found = nearestNest(nests, { latitude_deg: 27.009, longitude_deg: -74 });
  expect(found?.nest.id).toBe('W-2');
  expect(found?.distance_m).toBeCloseTo(111.2, 0);
  expect(nearestNest([nest('W-3', {})], { latitude_deg: 27, longitude_deg: -74 })).toBeNull();
});

describe('a stretch of the shore', () => {
  const shore = ['a', 'b', 'c', 'd', 'e', 'f', 'g'];
  test('has the nest in its middle', () => {
    expect(stretchAround(shore, 3, 3)).toEqual(['c', 'd', 'e']);
  });
  test('does not run past either end', () => {
    expect(stretchAround(shore, 0, 3)).toEqual(['a', 'b', 'c']);
    expect(stretchAround(shore, 6, 3)).toEqual(['e', 'f', 'g']);
    expect(stretchAround(['a'], 0, 3)).toEqual(['a']);
  });
});

describe('the order that is kept', () => {
  const [first, second] = [
    nest('N-1', { zone: 'North', shore_m: 20 }),
    nest('N-2', { zone: 'North' }),
  ];

  test('is that of now, and the same list while nothing changes that it goes by', () => {
    const memory = new ShoreMemory();
    const before = memory.order([second, first], ['North']);
    expect(before).toEqual(['N-1', 'N-2']);
    const noted = { ...first, clutch_eggs: 90 };
    expect(memory.order([second, noted], ['North'])).toBe(before);
  });

  test('follows a nest that is placed elsewhere, one more, and the zones', () => {
    const memory = new ShoreMemory();
    memory.order([first, second], ['North']);
    const moved = nest('N-2', { zone: 'North', shore_m: 5 });
    expect(memory.order([first, moved], ['North'])).toEqual(['N-2', 'N-1']);
    const south = nest('S-1', { zone: 'South' });
    expect(memory.order([first, moved, south], ['North', 'South'])).toEqual(['N-2', 'N-1', 'S-1']);
    expect(memory.order([first, moved, south], ['South', 'North'])).toEqual(['S-1', 'N-2', 'N-1']);
  });
});
