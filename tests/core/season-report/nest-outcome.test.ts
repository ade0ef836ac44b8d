import { describe, expect, test } from 'vitest';
import {
  byLayWeek,
  byZone,
  incubationsOf,
  mondayOf,
} from '../../../src/core/season-report/incubations.ts';
import { lossesOf } from '../../../src/core/season-report/losses.ts';
import { countOutcomes, outcomesOf } from '../../../src/core/season-report/nest-outcome.ts';
import { seasonInShort } from '../../../src/core/season-report/season-in-short.ts';
import {
  outcomesWithin,
  wholeSeason,
  zonesOf,
} from '../../../src/core/season-report/season-window.ts';
import { night } from '../../builders/season.ts';
import { toldSeason } from './told-season.ts';

const { record, forecast } = toldSeason();
const outcomes = outcomesOf(record, forecast);
const kindOf = Object.fromEntries(
  outcomes.map(({ nest, outcome }) => [nest.nest.id as string, outcome.kind]),
);

describe('what became of a nest', () => {
  test('is told by who sat there, what the dawn showed and what the inventory found', () => {
    expect(kindOf).toEqual({
      met: 'met',
      missed: 'missed',
      unseen: 'unseen',
      lost: 'lost',
      never: 'never',
      untold: 'not told',
      young: 'waiting',
      overdue: 'waiting',
    });
  });

  test('counts every nest once, and those probably up unseen by their odds', () => {
    const counted = countOutcomes(outcomes);
    expect(Object.values(counted.counts).reduce((sum, n) => sum + n, 0)).toBe(8);
    expect(counted.nests).toBe(8);
    // 81 nights old and never looked at: up unseen, or never; the young one adds next to nothing.
    expect(counted.unseenByOdds + counted.neverByOdds).toBeGreaterThan(0.9);
    expect(counted.unseenByOdds + counted.neverByOdds).toBeLessThan(1.2);
  });
});

describe('a window', () => {
  test('of one zone holds the nests of that zone', () => {
    expect(zonesOf(record.nests.values())).toEqual(['North', 'South']);
    const south = outcomesWithin(outcomes, { ...wholeSeason, zone: 'South' });
    expect(south.map(({ nest }) => nest.nest.id)).toEqual(['missed', 'unseen', 'young']);
  });

  test('of dates goes by what happened, and leaves out nests of which nothing came yet', () => {
    const june = { ...wholeSeason, from: night('2026-06-01'), to: night('2026-06-30') };
    const names = outcomesWithin(outcomes, june).map(({ nest }) => nest.nest.id);
    expect(names).toEqual(['lost', 'met', 'missed']);
  });

  test('of lay dates holds the waiting nests too', () => {
    const july = { zone: null, from: night('2026-07-01'), to: null, by: 'laid' } as const;
    expect(outcomesWithin(outcomes, july).map(({ nest }) => nest.nest.id)).toEqual(['young']);
  });
});

describe('incubation', () => {
  const incubations = incubationsOf(outcomes);

  test('runs from the middle of the lay nights to the boil, of nests that boiled', () => {
    expect(incubations).toMatchObject([
      { nest: 'met', nights: 54, isLayNightCertain: true },
      { nest: 'missed', nights: 55, isLayNightCertain: false },
    ]);
  });

  test('is given by zone and by the Monday of the lay week', () => {
    expect(byZone(incubations).map(({ of, spread }) => [of, spread.mean, spread.sd])).toEqual([
      ['North', 54, null],
      ['South', 55, null],
    ]);
    const [week, ...others] = byLayWeek(incubations);
    expect(others).toEqual([]);
    expect(week?.of).toBe(night('2026-05-04'));
    expect(week?.spread).toMatchObject({ n: 2, mean: 54.5, least: 54, most: 55 });
    expect(week?.spread.sd).toBeCloseTo(Math.SQRT1_2, 12);
    expect(mondayOf(night('2026-05-10'))).toBe(night('2026-05-04'));
    expect(mondayOf(night('2026-05-11'))).toBe(night('2026-05-11'));
  });
});

test('losses stand under every cause that struck, and the unexplained by themselves', () => {
  expect(lossesOf(outcomes)).toEqual([
    { cause: 'washover', struck: 2, lost: 1, cameUp: 1, open: 0 },
    { cause: 'washout', struck: 1, lost: 1, cameUp: 0, open: 0 },
    { cause: null, struck: 1, lost: 1, cameUp: 0, open: 0 },
  ]);
});

test('a season in short has its years, nests and boils', () => {
  expect(seasonInShort(record)).toEqual({
    name: 'Tern Beach',
    years: { from: 2026, to: 2026 },
    nests: 8,
    boils: 2,
    visits: 5,
  });
});
