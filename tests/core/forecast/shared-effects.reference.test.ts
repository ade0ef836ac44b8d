import { describe, expect, test } from 'vitest';
import { nestOdds } from '../../../src/core/forecast/nest-odds.ts';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import { middleLayNight } from '../../../src/core/forecast/candidates.ts';
import { sharedSd } from '../../../src/core/forecast/effect-layout.ts';
import { levelGrid, learnEffects } from '../../../src/core/forecast/shared-effects.ts';
import { gridPoints } from '../../../src/core/inference/grid-function.ts';
import { SeasonBuilder, eveningOf, layNightBefore } from '../../builders/season.ts';
import { learnLevel } from '../../reference/level-by-quadrature.ts';

const today = '2026-07-20';

/** Nests of one week, some up, some still waiting under the eyes of the dawn patrol. */
function mixedSeason(): SeasonBuilder {
  const season = new SeasonBuilder();
  for (let index = 0; index < 12; index++) {
    season.nest(`n${index}`, { lay_night: layNightBefore(today, 57) });
    const up = index % 3 === 0 ? index / 3 + 1 : null;
    for (let back = 9; back >= 1; back--) {
      const date = layNightBefore(today, back);
      if (up === back) season.watch(`n${index}`, date, '20:30', '23:30', 40);
      else if (up === null || back > up) {
        season.visit(`n${index}`, date, { kind: 'morning', tracks: 0, surface: 'smooth' });
      }
    }
  }
  return season;
}

describe('odds of tonight when nests share a season', () => {
  // Truth: brute-force quadrature over the one level that nests of one week, species and no zone share:
  // season + week + species, a normal of known variance, on the same grid.
  test('agree with brute-force quadrature to 1e-4', () => {
    const memory = new ForecastMemory();
    const moment = eveningOf(today);
    const works = memory.workOn(mixedSeason().record(), moment);
    const effects = learnEffects(
      works.map(({ record, evidence, byLevel }) => ({
        species: record.nest.species,
        zone: null,
        laid: middleLayNight(evidence.candidates),
        season: 0,
        warmer_c: 0,
        byLevel,
      })),
    );
    const sd = Math.hypot(sharedSd.beach, sharedSd.season, sharedSd.species, 0.001);
    const level = learnLevel(
      gridPoints(levelGrid),
      sd,
      works.map((work) => work.byLevel),
    );
    const ours = new Float64Array(levelGrid.count);
    const truth = new Float64Array(levelGrid.count);
    let largest = 0;
    works.forEach((work, index) => {
      effects.without(index, ours);
      level.without(work.byLevel, truth);
      const { candidates } = work.evidence;
      const tonight = moment.night - candidates.first;
      const [p, q] = [ours, truth].map(
        (weights) =>
          nestOdds(candidates, work.prior, weights, work.never, work.log).byNight[tonight] ?? 0,
      );
      largest = Math.max(largest, Math.abs(p! - q!));
    });
    expect(works.length).toBe(12);
    expect(largest).toBeLessThan(1e-4);
  });
});

describe('without any temperature', () => {
  test('a beach learns that early clutches take longer than late ones', () => {
    // Laid over eleven weeks, from 64 nights early on down to 52: all seen boiling.
    const season = new SeasonBuilder();
    for (let week = 0; week < 11; week++) {
      for (let index = 0; index < 4; index++) {
        const laid = 120 - 7 * week + index;
        const nights = Math.round(64 - 1.2 * week);
        const boil = laid - nights;
        season.nest(`w${week}-${index}`, { lay_night: layNightBefore(today, laid) });
        season.watch(`w${week}-${index}`, layNightBefore(today, boil), '20:30', '23:30', 40);
      }
    }
    season.nest('next early', { lay_night: layNightBefore(today, 119) });
    season.nest('next late', { lay_night: layNightBefore(today, 52) });
    const memory = new ForecastMemory();
    const record = season.record();
    const works = memory.workOn(record, eveningOf(layNightBefore(today, 0)));
    const weights = new Float64Array(levelGrid.count);
    const points = gridPoints(levelGrid);
    const etaOf = (id: string): number => {
      const index = works.findIndex((work) => work.record.nest.id === id);
      memory.effectsOf(works).without(index, weights);
      return points.reduce((sum, eta, k) => sum + eta * weights[k]!, 0);
    };
    const nights = (id: string): number => 55 * Math.exp(etaOf(id));
    // Eleven nights apart in truth; the guesses on how fast a season changes hold it back a little.
    expect(nights('next early') - nights('next late')).toBeGreaterThan(6.5);
  });
});

describe('right censoring', () => {
  test('nests that have not come up keep the level from being read too early', () => {
    // A season of usual length cut in mid-hatch: those that are up are the early ones.
    const season = new SeasonBuilder();
    const durations: number[] = [];
    for (let index = 0; index < 40; index++) {
      const nights = 55 + Math.round(4.5 * 1.6 * ((index + 0.5) / 40 - 0.5) * 2);
      const boil = nights - 55;
      season.nest(`n${index}`, { lay_night: layNightBefore(today, 55) });
      for (let back = 10; back >= 1; back--) {
        if (-boil < back) {
          const date = layNightBefore(today, back);
          season.visit(`n${index}`, date, { kind: 'morning', tracks: 0, surface: 'smooth' });
        }
      }
      if (boil < 0) {
        season.watch(`n${index}`, layNightBefore(today, -boil), '20:30', '23:30', 40);
        durations.push(nights);
      }
    }
    const memory = new ForecastMemory();
    const works = memory.workOn(season.record(), eveningOf(today));
    const { season: level } = memory.effectsOf(works);
    const naive = durations.reduce((sum, nights) => sum + nights, 0) / durations.length;
    expect(naive).toBeLessThan(52.5);
    expect(55 * Math.exp(level.mean)).toBeGreaterThan(53.8);
    expect(Math.abs(level.mean)).toBeLessThan(2 * level.sd);
  });
});
