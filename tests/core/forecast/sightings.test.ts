import { describe, expect, test } from 'vitest';
import type { Visit } from '../../../src/core/domain/visit.ts';
import { mishapsOf } from '../../../src/core/forecast/mishaps.ts';
import { countClass, trackSighting, watchSighting } from '../../../src/core/forecast/sightings.ts';
import { siteOf } from '../../../src/core/forecast/site.ts';
import { SeasonBuilder, clock, night } from '../../builders/season.ts';

const today = '2026-07-20';
const tonight = night(today);
const site = siteOf(new SeasonBuilder().programme({ time_zone: 'America/New_York' }).record());
const hatchlings = 80;

/** The visits that a few notes make. */
function visits(build: (season: SeasonBuilder) => SeasonBuilder): readonly Visit[] {
  const [nest] = build(new SeasonBuilder().nest('a')).record().nests.values();
  return nest!.visits;
}

const dawn = (details: Parameters<SeasonBuilder['visit']>[2]) =>
  trackSighting(
    visits((season) => season.visit('a', today, { kind: 'morning', ...details })),
    tonight,
    site,
    hatchlings,
  )!;

describe('tracks at dawn', () => {
  test('none after a boil are missed more often in wind and rain', () => {
    expect(dawn({ tracks: 0, wind: 'calm', rain: 'none' }).likelihood(0)).toBeCloseTo(0.05, 5);
    expect(dawn({ tracks: 0, wind: 'breeze' }).likelihood(0)).toBeCloseTo(0.15, 5);
    expect(dawn({ tracks: 0, rain: 'heavy' }).likelihood(0)).toBeCloseTo(0.4, 5);
    expect(dawn({ tracks: 0 }).likelihood(0)).toBeCloseTo(0.1, 5);
  });

  test('are missed more often where few hatchlings are expected', () => {
    const looked = visits((season) =>
      season.visit('a', today, { kind: 'morning', tracks: 0, wind: 'calm' }),
    );
    const few = trackSighting(looked, tonight, site, 6)!;
    expect(few.likelihood(0)).toBeGreaterThan(0.3);
  });

  test('are not seen on the three dawns after the boil’s own with .6, .75 and .9', () => {
    const none = dawn({ tracks: 0, wind: 'calm' });
    expect([-1, -2, -3].map(none.likelihood)).toEqual([0.6, 0.75, 0.9]);
    expect(none.likelihood(-20)).toBeGreaterThan(0.9);
  });

  test('many say that the boil has been, most likely last night', () => {
    const many = dawn({ tracks: 30, wind: 'calm' });
    expect(many.likelihood(1)).toBe(0);
    expect(many.likelihoodNever).toBe(0);
    expect(many.likelihood(0)).toBeGreaterThan(3 * many.likelihood(-1));
  });

  test('of a few speak of the nights to come, counted from the next', () => {
    const few = dawn({ tracks: 2 });
    const far = few.likelihood(20);
    expect([1, 2, 3, 4].map((after) => few.likelihood(after) / far)).toEqual([8, 4, 2, 1]);
    expect(few.likelihoodNever / far).toBeCloseTo(0.3, 10);
  });

  test('from four to nine are likelier after a boil than before it', () => {
    const some = dawn({ tracks: 6 });
    expect(some.likelihood(0)).toBeGreaterThan(5 * some.likelihood(1));
    expect(countClass(6, 10)).toBe('some');
    expect(countClass(6, 5)).toBe('many');
  });

  test('by two people on one dawn count once, with the larger number', () => {
    const two = visits((season) =>
      season
        .visit('a', today, { kind: 'morning', tracks: 0, wind: 'calm' })
        .visit('a', today, { kind: 'morning', tracks: 2, wind: 'calm' }),
    );
    expect(trackSighting(two, tonight, site, hatchlings)).toMatchObject({
      counted: 2,
      count: 'few',
    });
  });

  test('the chances of every count add up to 1 whenever the boil is', () => {
    for (const after of [-6, -2, -1, 0, 1, 2, 3, 9]) {
      const sum = [0, 2, 6, 30]
        .map((tracks) => dawn({ tracks, wind: 'calm' }).likelihood(after))
        .reduce((total, p) => total + p, 0);
      expect(sum).toBeCloseTo(1, 10);
    }
  });
});

describe('a watch', () => {
  const watched = (from: string, to: string, emerged: number, until = '36:00') =>
    watchSighting(
      visits((season) => season.watch('a', today, from, to, emerged)),
      tonight,
      site,
      false,
      clock(today, until),
    );

  test('in which nothing came leaves the share of boils outside it', () => {
    // Without a position sunset is taken at 20:00: 20:00 to 23:00 holds .10 + .18 + .17 of all boils.
    const none = watched('20:00', '23:00', 0)!;
    const stragglers = 1 - 0.01 * 8 * 1.1;
    expect(none.likelihood(0)).toBeCloseTo((1 - 0.45) * stragglers, 6);
    expect(none.likelihood(30)).toBeGreaterThan(0.98);
  });

  test('in which many came settles the night', () => {
    const many = watched('20:00', '23:00', 50)!;
    expect([-1, 0, 1].map(many.likelihood)).toEqual([0, 1, 0]);
  });

  test('that two pairs kept at the same time is not counted twice', () => {
    const both = watchSighting(
      visits((season) =>
        season.watch('a', today, '20:00', '22:00', 0).watch('a', today, '21:00', '23:00', 0),
      ),
      tonight,
      site,
      false,
      clock(today, '36:00'),
    )!;
    expect(both.likelihood(0)).toBeCloseTo(watched('20:00', '23:00', 0)!.likelihood(0), 10);
  });

  test('still going on counts only as far as the moment asked about', () => {
    const now = watched('20:00', '23:00', 0, '21:00')!;
    expect(now.likelihood(0)).toBeCloseTo(watched('20:00', '21:00', 0)!.likelihood(0), 10);
    expect(watched('20:00', '23:00', 40, '21:00')).toBeNull();
  });

  test('of which nobody wrote the outcome says nothing', () => {
    const unsaid = visits((season) =>
      season.visit('a', today, { watched_from: '2026-07-20T20:00-04:00' }),
    );
    expect(watchSighting(unsaid, tonight, site, false, Infinity)).toBeNull();
  });
});

describe('mishaps', () => {
  const of = (...events: (readonly [string, string])[]) =>
    mishapsOf(
      visits((season) => {
        for (const [date, event] of events) season.visit('a', date, { event });
        return season;
      }),
    );

  test('one washover counts 1.3 on the odds of never, two on different nights 2.5', () => {
    expect(of(['2026-06-01', 'washover']).neverFactor).toBe(1.3);
    expect(of(['2026-06-01', 'washover'], ['2026-06-01', 'washover']).neverFactor).toBe(1.3);
    expect(of(['2026-06-01', 'washover'], ['2026-06-09', 'washover']).neverFactor).toBe(2.5);
  });

  test('the worst storm holds, predation multiplies', () => {
    const both = of(
      ['2026-06-01', 'washover'],
      ['2026-06-02', 'burial'],
      ['2026-06-03', 'predation'],
    );
    expect(both.neverFactor).toBe(7.5);
  });

  test('a washout seen at dawn leaves the night before it open', () => {
    const seen = visits((season) =>
      season.visit('a', today, { kind: 'morning', event: 'washout' }),
    );
    expect(mishapsOf(seen).goneFrom).toBe(tonight + 1);
    expect(of([today, 'washout']).goneFrom).toBe(tonight);
  });
});
