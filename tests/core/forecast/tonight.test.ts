import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { SeasonForecast } from '../../../src/core/forecast/forecast.ts';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { SeasonBuilder, clock, eveningOf, layNightBefore, zone } from '../../builders/season.ts';

const today = '2026-07-20';
const aged = (nights: number) => ({ lay_night: layNightBefore(today, nights) });
const dayBefore = (nights: number): string => layNightBefore(today, nights);

function chance(forecast: SeasonForecast, id: string): number {
  const found = forecast.nests.find((nest) => nest.record.nest.id === id);
  if (found === undefined) throw new Error(`${id} is not ranked`);
  return found.pTonight;
}

function expectSumsToOne(forecast: SeasonForecast): void {
  for (const nest of forecast.nests) {
    const later = nest.distribution.reduce((sum, { p }) => sum + p, 0);
    expect(Math.abs(later + nest.pAlready + nest.pNever - 1)).toBeLessThan(1e-9);
    expect(nest.distribution[0]?.p ?? 0).toBeCloseTo(nest.pTonight, 12);
    for (const value of [nest.pTonight, nest.pAlready, nest.pNever, nest.checkValue]) {
      expect(value).toBeGreaterThanOrEqual(0);
    }
  }
}

describe('the ranking on an evening', () => {
  const season = new SeasonBuilder()
    .nest('young', aged(30))
    .nest('due', aged(54))
    .nest('dipped', aged(54))
    .nest('loud', aged(54))
    .visit('dipped', today, { surface: 'depression' }, clock(today, '17:00'))
    .visit('loud', today, { sound: 'waterfall', instrument: 'probe' }, clock(today, '17:00'));
  const forecast = forecastSeason(season.record(), eveningOf(today));

  test('puts a nest that dips and one that scratches before one of the same age that does not', () => {
    expect(
      forecast.nests
        .map((nest) => nest.record.nest.id)
        .slice(0, 2)
        .sort(),
    ).toEqual(['dipped', 'loud']);
    expect(chance(forecast, 'dipped')).toBeGreaterThan(1.5 * chance(forecast, 'due'));
  });

  test('gives a young nest next to nothing', () => {
    expect(chance(forecast, 'young')).toBeLessThan(0.001);
    expect(forecast.nests.at(-1)?.record.nest.id).toBe('young');
  });

  test('adds up to 1 for every nest', () => {
    expectSumsToOne(forecast);
  });

  test('does not use a note made later than the moment asked about', () => {
    const patrolled = () => {
      const season = new SeasonBuilder().nest('due', aged(54));
      for (let back = 1; back <= 12; back++) {
        season.visit('due', dayBefore(back), { kind: 'morning', tracks: 0, surface: 'smooth' });
      }
      return season;
    };
    const without = patrolled().record();
    const later = patrolled()
      .visit('due', today, { surface: 'caved' }, clock(today, '20:00'))
      .record();
    const asked = eveningOf(today);
    expect(chance(forecastSeason(later, asked), 'due')).toBe(
      chance(forecastSeason(without, asked), 'due'),
    );
    const after = { ...asked, at_ms: clock(today, '20:01') };
    expect(chance(forecastSeason(later, after), 'due')).toBeGreaterThan(0.2);
  });
});

describe('out of the ranking', () => {
  test('is a nest seen boiling, with the night it boiled', () => {
    const season = new SeasonBuilder()
      .nest('a', aged(56))
      .watch('a', dayBefore(2), '20:30', '23:00', 60);
    const forecast = forecastSeason(season.record(), eveningOf(today));
    expect(forecast.nests).toEqual([]);
    expect(forecast.out[0]).toMatchObject({
      reason: 'boiled',
      night: eveningOf(dayBefore(2)).night,
    });
  });

  test('is a nest with many tracks at dawn', () => {
    const season = new SeasonBuilder()
      .nest('a', aged(56))
      .visit('a', dayBefore(1), { kind: 'morning', tracks: 40 });
    const forecast = forecastSeason(season.record(), eveningOf(today));
    expect(forecast.out[0]).toMatchObject({
      reason: 'boiled',
      night: eveningOf(dayBefore(1)).night,
    });
  });

  test('is a nest that was washed out, but not one that was washed over', () => {
    const season = new SeasonBuilder()
      .nest('over', aged(50))
      .nest('gone', aged(50))
      .visit('over', dayBefore(5), { event: 'washover' })
      .visit('gone', dayBefore(5), { event: 'washout' });
    const forecast = forecastSeason(season.record(), eveningOf(today));
    expect(forecast.out.map((nest) => [nest.record.nest.id, nest.reason])).toEqual([
      ['gone', 'washed out'],
    ]);
    expect(forecast.nests.map((nest) => nest.record.nest.id)).toEqual(['over']);
  });

  test('is not a nest from which a few stragglers came: they speak of the nights ahead', () => {
    const plain = new SeasonBuilder().nest('a', aged(50)).record();
    const straggled = new SeasonBuilder()
      .nest('a', aged(50))
      .visit('a', dayBefore(1), { kind: 'morning', tracks: 2 })
      .record();
    const asked = eveningOf(today);
    const found = forecastSeason(straggled, asked);
    expect(found.out).toEqual([]);
    expect(chance(found, 'a')).toBeGreaterThan(2 * chance(forecastSeason(plain, asked), 'a'));
  });
});

describe('a nest of unknown lay night', () => {
  const others = () =>
    new SeasonBuilder().nest('known', aged(60)).nest('blank', { lay_night: null });

  test('is ranked, and no other nest moves it', () => {
    const asked = eveningOf(today);
    const alone = chance(forecastSeason(others().record(), asked), 'blank');
    const late = others().nest('flat', aged(64)).watch('known', dayBefore(1), '20:30', '24:00', 50);
    expect(chance(forecastSeason(late.record(), asked), 'blank')).toBe(alone);
  });

  test('moves by its cues', () => {
    const asked = eveningOf(today);
    const alone = chance(forecastSeason(others().record(), asked), 'blank');
    const heard = others().visit('blank', today, { sound: 'steady' }, clock(today, '17:30'));
    expect(chance(forecastSeason(heard.record(), asked), 'blank')).toBeGreaterThan(4 * alone);
  });
});

describe('the season level', () => {
  const asked = eveningOf(today);
  const cohort = (season: SeasonBuilder, count: number, nights: number): SeasonBuilder => {
    for (let index = 0; index < count; index++) season.nest(`w${nights}-${index}`, aged(nights));
    return season;
  };

  test('is usual when nothing has been noted', () => {
    const { level } = forecastSeason(cohort(new SeasonBuilder(), 20, 40).record(), asked);
    expect(level.mean).toBeCloseTo(0, 10);
    expect(level.sd).toBeCloseTo(0.07, 3);
  });

  test('is early once nests have come up early', () => {
    const season = new SeasonBuilder();
    for (let index = 0; index < 5; index++) {
      season.nest(`e${index}`, aged(49)).watch(`e${index}`, dayBefore(1), '20:30', '23:59', 70);
    }
    const { level } = forecastSeason(season.record(), asked);
    expect(level.days).toBeLessThan(-4);
    expect(level.emerged).toBe(5);
  });

  test('is late when old nests, looked at every dawn, have not come up', () => {
    const season = cohort(new SeasonBuilder(), 12, 60);
    for (let index = 0; index < 12; index++) {
      for (let back = 1; back <= 14; back++) {
        season.visit(`w60-${index}`, dayBefore(back), {
          kind: 'morning',
          tracks: 0,
          surface: 'smooth',
        });
      }
    }
    const { level } = forecastSeason(season.record(), asked);
    expect(level.days).toBeGreaterThan(2);
    expect(level.waiting).toBe(12);
  });
});

describe('evidence', () => {
  const notes = new SeasonBuilder().nest('a', aged(53)).nest('b', aged(57));
  for (let back = 6; back >= 1; back--) {
    notes.visit('a', dayBefore(back), {
      surface: back > 2 ? 'smooth' : 'dip',
      sound: 'occasional',
    });
    notes.visit('b', dayBefore(back), {
      kind: 'morning',
      tracks: 0,
      surface: 'smooth',
      wind: 'breeze',
    });
  }
  notes.watch('b', dayBefore(1), '20:30', '24:30', 0);
  const asked = eveningOf(today);
  const whole = forecastSeason(fold(notes.events, zone), asked);

  test('gives the same posterior in any order of arrival', () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray(notes.events, { minLength: notes.events.length }),
        (events) => {
          const shuffled = forecastSeason(fold(events, zone), asked);
          expect(shuffled.nests.map((nest) => nest.pTonight)).toEqual(
            whole.nests.map((nest) => nest.pTonight),
          );
        },
      ),
      { seed: 11, numRuns: 25 },
    );
  });

  test('gives the same with a memory that has seen earlier evenings and earlier notes', () => {
    const memory = new ForecastMemory();
    for (let back = 8; back >= 1; back--) {
      forecastSeason(
        fold(notes.events.slice(0, 20 - back), zone),
        eveningOf(dayBefore(back)),
        memory,
      );
    }
    const remembered = forecastSeason(fold(notes.events, zone), asked, memory);
    // It starts from what it learned before, and settles to within a hundred-thousandth of an SD.
    remembered.nests.forEach(({ pTonight, pNever }, index) => {
      expect(pTonight).toBeCloseTo(whole.nests[index]!.pTonight, 6);
      expect(pNever).toBeCloseTo(whole.nests[index]!.pNever, 6);
    });
  });

  test('adds up to 1 whatever was noted', () => {
    const cell = fc.option(fc.constantFrom('smooth', 'dip', 'depression', 'caved'), { nil: null });
    const heard = fc.option(fc.constantFrom('quiet', 'occasional', 'steady', 'waterfall'), {
      nil: null,
    });
    const visit = fc.record({
      back: fc.integer({ min: 0, max: 20 }),
      morning: fc.boolean(),
      surface: cell,
      sound: heard,
      tracks: fc.option(fc.integer({ min: 0, max: 12 }), { nil: null }),
      event: fc.option(fc.constantFrom('washover', 'predation', 'burial'), { nil: null }),
      instrument: fc.option(fc.constantFrom('stethoscope', 'probe', 'microphone'), { nil: null }),
      experience: fc.option(fc.constantFrom('novice', 'trained', 'lead'), { nil: null }),
    });
    const memory = new ForecastMemory();
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 130 }),
        fc.integer({ min: 0, max: 6 }),
        fc.array(visit, { maxLength: 12 }),
        (age, range, visits) => {
          const season = new SeasonBuilder().nest('x', {
            lay_night: layNightBefore(today, age + range),
            lay_night_latest: layNightBefore(today, age),
          });
          for (const { back, morning, ...details } of visits) {
            season.visit('x', dayBefore(back), {
              kind: morning ? 'morning' : 'evening',
              ...details,
            });
          }
          const later = { ...asked, at_ms: asked.at_ms + 6e7 };
          expectSumsToOne(forecastSeason(season.record(), later, memory));
        },
      ),
      { seed: 5, numRuns: 150 },
    );
  });
});
