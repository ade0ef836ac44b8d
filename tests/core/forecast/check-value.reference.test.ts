import { describe, expect, test } from 'vitest';
import { Sound, Surface } from '../../../src/core/domain/visit.ts';
import type { NestId } from '../../../src/core/domain/nest.ts';
import type { SeasonForecast } from '../../../src/core/forecast/forecast.ts';
import { oneNest } from '../../../src/core/forecast/one-nest.ts';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import { SeasonBuilder, clock, eveningOf, layNightBefore } from '../../builders/season.ts';

const today = '2026-07-20';
const asked = eveningOf(today, '20:30');
/** Cues at full weight: then what a look may find and what it would do are one probability model. */
const tuning = { surfacePower: 1, soundPower: 1, spreadFactor: 1, haste: 1, neverOdds: 1 };

/** Five nests, for one pair unless said; `a` was dipped last night, the others are of different ages. */
function season(pairs = 1): SeasonBuilder {
  const built = new SeasonBuilder().programme({ time_zone: 'America/New_York', pairs });
  for (const [id, age] of [
    ['a', 52],
    ['b', 55],
    ['c', 50],
    ['d', 47],
    ['e', 60],
  ] as const) {
    built.nest(id, { lay_night: layNightBefore(today, age) });
    for (let back = 1; back <= 6; back++) {
      built.visit(id, layNightBefore(today, back), { kind: 'morning', tracks: 0 });
    }
  }
  return built.visit('a', layNightBefore(today, 1), { surface: 'dip', sound: 'occasional' });
}

const chance = (forecast: SeasonForecast, id: string): number =>
  forecast.nests.find((nest) => nest.record.nest.id === id)!.pTonight;

/** The chance of everything noted of a nest, and of a boil tonight given it, from one prior. */
function noted(built: SeasonBuilder, id: string, prior: Float64Array) {
  const one = oneNest(built.record(), asked, id as NestId, new ForecastMemory({ tuning }))!;
  const { log, never, evidence } = one.work;
  const weights = [...log].map((value, c) =>
    c === log.length - 1 ? never * Math.exp(value) : (1 - never) * prior[c]! * Math.exp(value),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return { total, boil: weights[asked.night - evidence.candidates.first]! / total };
}

describe('the worth of a walk', () => {
  // Truth: brute force. Note each of the sixteen readings in turn, work the nest out again from all its
  // notes, put the pair where it then stands best, and weigh by the chance of that reading.
  const base = season();
  const plain = forecastSeason(base.record(), asked, new ForecastMemory({ tuning }));
  const best = Math.max(...plain.nests.map((nest) => nest.pTonight));

  for (const id of ['a', 'b', 'c']) {
    test(`to nest ${id} is what noting every reading in turn comes to`, () => {
      const memory = new ForecastMemory({ tuning });
      const { prior } = oneNest(base.record(), asked, id as NestId, memory)!;
      const before = noted(base, id, prior);
      expect(before.boil).toBeCloseTo(chance(plain, id), 10);
      const others = plain.nests.filter((nest) => nest.record.nest.id !== id);
      const rival = Math.max(...others.map((nest) => nest.pTonight));
      let expected = 0;
      let total = 0;
      for (const surface of Surface.options) {
        for (const sound of Sound.options) {
          const look = season().visit(id, today, { surface, sound }, clock(today, '20:15'));
          const after = noted(look, id, prior);
          const reading = after.total / before.total;
          expected += reading * Math.max(after.boil, rival);
          total += reading;
        }
      }
      expect(total).toBeCloseTo(1, 9);
      const told = plain.nests.find((nest) => nest.record.nest.id === id)!.checkValue;
      expect(told).toBeCloseTo(expected - best, 9);
      expect(told).toBeGreaterThanOrEqual(0);
    });
  }

  test('is nothing when there are pairs for all nests', () => {
    const { nests } = forecastSeason(season(5).record(), asked);
    expect(nests.map((nest) => nest.checkValue)).toEqual([0, 0, 0, 0, 0]);
  });
});
