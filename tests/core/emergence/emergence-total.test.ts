import { describe, expect, test } from 'vitest';
import { NestId } from '../../../src/core/domain/nest.ts';
import { asNight } from '../../../src/core/domain/night.ts';
import { VisitDetails } from '../../../src/core/domain/visit.ts';
import { type BoilCount, countIn } from '../../../src/core/emergence/boil-count.ts';
import { boilNight, emergenceTotals } from '../../../src/core/emergence/emergence-total.ts';
import { wayToTheWater } from '../../../src/core/emergence/way-to-the-water.ts';

const tonight = asNight(20_654);
let made = 0;

function count(details: object, night = tonight): BoilCount {
  const read = countIn(
    { id: `count-${(made += 1)}`, nest: NestId.parse('W-1'), details: VisitDetails.parse(details) },
    night,
    10,
  );
  if (read === null) throw new Error('there was a count');
  return read;
}

describe('a boil counted by several people', () => {
  test('each on their own side comes to the sum, with the earliest first and the latest last', () => {
    const [total] = emergenceTotals([
      count({
        observer: 'Ada',
        emergence: 'boil',
        emerged: 41,
        reached_water: 40,
        astray: 1,
        first_out: '2026-07-20T21:12-04:00',
        last_out: '2026-07-20T21:30-04:00',
      }),
      count({
        observer: 'Bo',
        emergence: 'boil',
        emerged: 38,
        reached_water: 30,
        taken: 2,
        first_out: '2026-07-20T21:15-04:00',
        last_out: '2026-07-20T21:41-04:00',
      }),
    ]);
    expect(total).toMatchObject({
      emerged: 79,
      reachedWater: 70,
      astray: 1,
      taken: 2,
      unfollowed: 6,
      counters: ['Ada', 'Bo'],
      basis: 'parts added',
      first_ms: Date.parse('2026-07-20T21:12-04:00'),
      last_ms: Date.parse('2026-07-20T21:41-04:00'),
    });
  });

  test('who both counted all of them is not added up: the larger count holds', () => {
    const [total] = emergenceTotals([
      count({ emerged: 78, counting: 'whole', emergence: 'boil' }),
      count({ emerged: 81, counting: 'whole', emergence: 'boil', reached_water: 80 }),
    ]);
    expect(total).toMatchObject({
      emerged: 81,
      reachedWater: 80,
      basis: 'largest count of the whole',
    });
  });

  test('the number given at the end of a watch does not add to what the same person counted', () => {
    const [total] = emergenceTotals([
      count({ observer: 'Ada', emerged: 80, emergence: 'boil' }),
      count({ observer: 'Ada', emerged: 75 }),
      count({ observer: 'Bo', emerged: 12 }),
    ]);
    expect(total?.emerged).toBe(92);
  });

  test('a count of the whole gives way when the parts come to more', () => {
    const [total] = emergenceTotals([
      count({ emerged: 60, counting: 'whole', emergence: 'boil' }),
      count({ emerged: 40, emergence: 'boil' }),
      count({ emerged: 35, emergence: 'boil' }),
    ]);
    expect(total).toMatchObject({ emerged: 75, basis: 'parts added' });
  });
});

describe('stragglers', () => {
  test('on later nights stand apart from the boil', () => {
    const totals = emergenceTotals([
      count({ emerged: 3 }, asNight(tonight + 1)),
      count({ emerged: 85 }),
      count({ emerged: 2 }, asNight(tonight + 2)),
    ]);
    expect(totals.map(({ emergence, emerged }) => [emergence, emerged])).toEqual([
      ['boil', 85],
      ['stragglers', 3],
      ['stragglers', 2],
    ]);
    expect(boilNight(totals)).toBe(tonight);
  });

  test('alone make no boil', () => {
    expect(boilNight(emergenceTotals([count({ emerged: 9 })]))).toBeNull();
    expect(boilNight(emergenceTotals([count({ emerged: 4, emergence: 'boil' })]))).toBe(tonight);
  });
});

test('a sit in which nothing came, or nobody counted, is no count', () => {
  const visit = (emerged: number | null) => ({
    id: 'x',
    nest: NestId.parse('W-1'),
    details: VisitDetails.parse({ emerged }),
  });
  expect(countIn(visit(0), tonight, 10)).toBeNull();
  expect(countIn(visit(null), tonight, 10)).toBeNull();
});

test('what became of hatchlings that nobody followed is not known, not nought', () => {
  const [total] = emergenceTotals([count({ emerged: 50 })]);
  expect(total).toMatchObject({ reachedWater: null, astray: null, taken: null, unfollowed: null });
});

test('the way to the water is what all who were there have seen to', () => {
  const steps = wayToTheWater([
    VisitDetails.parse({ observer: 'Ada', way: ['holes', 'gear'] }),
    VisitDetails.parse({ observer: 'Bo', way: ['gear', 'people'] }),
    VisitDetails.parse({ surface: 'dip' }),
  ]);
  expect(steps.map(({ step, isDone, by }) => [step, isDone, by.join('+')])).toEqual([
    ['holes', true, 'Ada'],
    ['gear', true, 'Ada+Bo'],
    ['lamps', false, ''],
    ['people', true, 'Bo'],
  ]);
});
