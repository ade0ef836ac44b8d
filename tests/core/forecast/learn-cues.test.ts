import { describe, expect, test } from 'vitest';
import { defaultCueTables } from '../../../src/core/forecast/cue-tables.ts';
import { type LearnedCues, learnCues } from '../../../src/core/forecast/learn-cues.ts';
import { readerKey } from '../../../src/core/forecast/misreading.ts';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import { defaultTuning } from '../../../src/core/forecast/tuning.ts';
import { randomStream } from '../../../src/core/numerics/random.ts';
import { SeasonBuilder, clock, eveningOf, layNightBefore } from '../../builders/season.ts';

const today = '2026-07-20';
const asked = eveningOf(today);
const dayBefore = (nights: number): string => layNightBefore(today, nights);
const aged = (nights: number) => ({ lay_night: dayBefore(nights) });
const learn = (season: SeasonBuilder): LearnedCues =>
  learnCues(season.record(), asked, new ForecastMemory());
const farRow = ({ tables }: LearnedCues): readonly number[] => tables.surface.rows.at(-1)![1];
const defaultFar = defaultCueTables.surface.rows.at(-1)![1];

/**
 * Nests too young to hatch, looked at on `dawns` dawns by one observer or several. `reads` says what
 * each of them writes of a nest on a dawn.
 */
function youngNests(
  nests: number,
  dawns: number,
  observers: readonly string[],
  reads: (nest: number, back: number, observer: string) => string,
): SeasonBuilder {
  const season = new SeasonBuilder();
  for (let nest = 0; nest < nests; nest++) {
    season.nest(`young-${nest}`, aged(32));
    for (let back = dawns; back >= 1; back--) {
      for (const observer of observers) {
        const surface = reads(nest, back, observer);
        season.visit(`young-${nest}`, dayBefore(back), { kind: 'morning', observer, surface });
      }
    }
  }
  return season;
}

describe('a record that says nothing', () => {
  test('without a note gives the defaults back exactly', () => {
    const learned = learn(new SeasonBuilder().nest('a', aged(50)).nest('b', aged(20)));
    expect(learned.tables).toEqual(defaultCueTables);
    expect(learned.tuning).toEqual(defaultTuning);
    for (const { rows } of learned.learnedTables) for (const row of rows) expect(row.n).toBe(0);
  });

  test('of watches and tracks alone leaves the tables as they are', () => {
    const season = new SeasonBuilder()
      .nest('a', aged(56))
      .watch('a', dayBefore(3), '21:00', '23:00', 0)
      .visit('a', dayBefore(2), { kind: 'morning', tracks: 50 });
    expect(learn(season).tables).toEqual(defaultCueTables);
  });

  test('of a few notes stays at the default weights, and near the default tables', () => {
    const season = new SeasonBuilder().nest('a', aged(53)).nest('b', aged(55));
    for (let back = 4; back >= 1; back--) {
      season.visit('a', dayBefore(back), { surface: 'dip', sound: 'occasional' });
      season.visit('b', dayBefore(back), { surface: 'smooth', sound: 'quiet' });
    }
    const { tables, tuning } = learn(season);
    expect(tuning).toEqual(defaultTuning);
    tables.surface.rows.forEach(([, row], index) => {
      row.forEach((p, state) => {
        expect(Math.abs(p - defaultCueTables.surface.rows[index]![1][state]!)).toBeLessThan(0.06);
      });
    });
  });
});

test('nothing is learned from what was noted after the moment of asking', () => {
  const until = { night: eveningOf(dayBefore(6)).night, at_ms: clock(dayBefore(6), '18:00') };
  const build = (later: boolean): SeasonBuilder => {
    const season = new SeasonBuilder();
    for (let nest = 0; nest < 6; nest++) {
      season.nest(`n${nest}`, aged(50 + nest));
      for (let back = 14; back > (later ? 0 : 6); back--) {
        const surface = back < 7 ? 'caved' : back % 3 === 0 ? 'dip' : 'smooth';
        season.visit(`n${nest}`, dayBefore(back), {
          kind: 'morning',
          observer: 'Ann',
          tracks: later && back === 2 ? 40 : 0,
          surface,
        });
      }
    }
    return season;
  };
  const before = learnCues(build(false).record(), until, new ForecastMemory());
  const withLater = learnCues(build(true).record(), until, new ForecastMemory());
  expect(withLater).toEqual(before);
});

describe('from the first day, nests too young to hatch', () => {
  // Dips that stay two or three dawns, on some one dawn in four: ten times the default.
  const crab = (nest: number, back: number): string =>
    (back + nest * 5) % 12 < 3 ? 'dip' : 'smooth';
  const busy = learn(youngNests(15, 24, ['Ann'], crab));

  test('teach that a beach of busy crabs is often dipped far from any boil', () => {
    expect(farRow(busy)[1]).toBeGreaterThan(5 * defaultFar[1]!);
    const row = busy.learnedTables[0]!.rows.at(-1)!;
    expect(row.n).toBeCloseTo(15 * 24, 0); // all but what a very early boil would have
  });

  test('so that a dip there warns less than it would elsewhere', () => {
    const season = () =>
      new SeasonBuilder()
        .nest('due', aged(50))
        .visit('due', dayBefore(1), { kind: 'morning', surface: 'dip' });
    const chance = (memory: ForecastMemory): number =>
      forecastSeason(season().record(), asked, memory).nests[0]!.pTonight;
    const flat = chance(new ForecastMemory());
    expect(chance(new ForecastMemory({ tables: busy.tables }))).toBeLessThan(0.9 * flat);
  });

  test('and nearer rows are never below farther ones', () => {
    const { rows } = busy.tables.surface;
    const above = (row: readonly number[], from: number): number =>
      row.slice(from).reduce((sum, p) => sum + p, 0);
    for (let index = 1; index < rows.length; index++) {
      for (let from = 1; from < 4; from++) {
        const [near, far] = [rows[index - 1]![1], rows[index]![1]];
        expect(above(far, from)).toBeLessThanOrEqual(above(near, from) + 1e-12);
      }
    }
  });

  test('tell an observer who sees what is not there from a beach that is dipped', () => {
    const random = randomStream(3, 'hopeful');
    const hopeful = learn(
      youngNests(15, 24, ['Ann', 'Ben'], (_, __, observer) =>
        observer === 'Ben' && random.chance(0.3) ? 'dip' : 'smooth',
      ),
    );
    const { byReader, byExperience } = hopeful.tables.surfaceReadings;
    const [ann, ben] = ['Ann', 'Ben'].map((name) => byReader.get(readerKey(name, 'trained'))!);
    expect(ben![1]).toBeGreaterThan(0.24);
    expect(ben![1]).toBeLessThan(0.36);
    expect(ann![1]).toBeLessThan(0.03);
    expect(byExperience.trained[1]).toBeGreaterThan(ann![1]!);
    expect(farRow(hopeful)[1]).toBeLessThan(1.5 * defaultFar[1]!);
    expect(byExperience.novice).toEqual(defaultCueTables.surfaceReadings.byExperience.novice);
  });
});

test('finished seasons teach with this one', () => {
  const crabby = youngNests(10, 20, ['Ann'], (nest, back) =>
    (back + nest * 3) % 8 < 2 ? 'dip' : 'smooth',
  ).record();
  const fresh = new SeasonBuilder().nest('a', aged(40)).record();
  const alone = learnCues(crabby, asked, new ForecastMemory());
  const together = learnCues([crabby, fresh], asked, new ForecastMemory());
  expect(together.tables).toEqual(alone.tables);
});
