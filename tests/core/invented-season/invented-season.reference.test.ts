import { describe, expect, test } from 'vitest';
import { inventSeason } from '../../../src/core/invented-season/invented-season.ts';
import { parseInstant } from '../../../src/core/domain/instant.ts';
import { asNight, nightBounds } from '../../../src/core/domain/night.ts';
import { sunTimes } from '../../../src/core/sky/sun.ts';
import { durations, mean, nightNumber, rowsOf, spread } from './season-columns.ts';

const seasons = [1, 2, 3, 4, 5].map((seed) => inventSeason({ nests: 120, seed }));
const boils = seasons.flatMap((season) =>
  season.truth.flatMap((truth) => (truth.outcome === 'boil' ? [{ season, truth }] : [])),
);

describe('five ordinary seasons of an invented coast', () => {
  test('loggerheads come up after the days that field nests take', () => {
    // Means of field studies 51.4 (Boca Raton) to 58.8 d (Espirito Santo/Bahia), facts A3.
    const days = seasons.flatMap((season) => durations(season, 'Caretta caretta'));
    expect(mean(days)).toBeGreaterThan(51.4);
    expect(mean(days)).toBeLessThan(58.8);
  });

  test('loggerheads on one beach in one season differ by an SD of about 4.5 nights', () => {
    // Pooled SD 4.55 d, 266 df, 12 beaches; single beaches 3.6 to 5.7 (facts A3).
    const days = seasons.map((season) => spread(durations(season, 'Caretta caretta')));
    expect(mean(days)).toBeGreaterThan(3.6);
    expect(mean(days)).toBeLessThan(5.7);
  });

  test('greens and leatherbacks take what their field nests take', () => {
    // Greens 49.3 (Alagadi) to 55.9 d (Ascension); leatherbacks 56.6 (Terengganu) to 64.0 d
    // (Krofajapasi); facts A3. Four more days allowed: the invented coast is none of those.
    const greens = seasons.flatMap((season) => durations(season, 'Chelonia mydas'));
    const leatherbacks = seasons.flatMap((season) => durations(season, 'Dermochelys coriacea'));
    expect(mean(greens)).toBeGreaterThan(49.3);
    expect(mean(greens)).toBeLessThan(59.9);
    expect(mean(leatherbacks)).toBeGreaterThan(58);
    expect(mean(leatherbacks)).toBeLessThan(68);
  });

  test('a tenth or so of the nests never come up', () => {
    // No survey gives this share; Florida's mean emergence success of 51.6 % (Brost et al. 2015)
    // with good nests near 80 % bounds it below a third.
    const lost = seasons.flatMap(({ truth }) => truth.filter(({ outcome }) => outcome === 'lost'));
    expect(lost.length / 600).toBeGreaterThan(0.05);
    expect(lost.length / 600).toBeLessThan(0.3);
  });

  test('four of five nests or more boil by night, most before one', () => {
    // Share of groups at night 79.5 % (loggerheads, Glen et al. 2005) to 98.6 % of hatchlings (Ogul
    // et al.); peaks from 21:00 to 01:00 (facts D).
    const hours = boils.map(({ season, truth }) => {
      const night = nightNumber(truth.night);
      const { latitude, longitude, time_zone } = season.programme;
      const { from_ms, to_ms } = nightBounds(asNight(night), time_zone);
      const sun = sunTimes({ latitude_deg: latitude, longitude_deg: longitude }, from_ms, to_ms);
      const at_ms = parseInstant(truth.time ?? '') ?? 0;
      if (sun.sunset.kind !== 'at' || sun.sunrise.kind !== 'at') throw new Error('No night.');
      const dark = at_ms >= sun.sunset.time_ms && at_ms <= sun.sunrise.time_ms;
      return { dark, sinceNoon_h: (at_ms - from_ms) / 3_600_000 };
    });
    const dark = hours.filter((hour) => hour.dark).length / hours.length;
    expect(dark).toBeGreaterThan(0.85);
    expect(dark).toBeLessThan(0.995);
    const middle =
      hours.map((hour) => hour.sinceNoon_h).sort((a, b) => a - b)[hours.length >> 1] ?? 0;
    expect(middle).toBeGreaterThan(9);
    expect(middle).toBeLessThan(13);
  });

  test('most nests send most of their hatchlings out on the first night', () => {
    // Glen et al. 2005; Adam et al. 2007 (facts C). Shells less those still below = all that left.
    const shares = seasons.flatMap((season) => {
      const truths = new Map(season.truth.map((truth) => [truth.nest, truth]));
      return rowsOf(season, 'inventory.csv').flatMap((row) => {
        const truth = truths.get(row.nest ?? '');
        if (truth?.outcome !== 'boil') return [];
        const left = Number(row.shells) - Number(row.live_in_nest) - Number(row.dead_in_nest);
        return [truth.hatchlings / Math.max(1, left)];
      });
    });
    expect(shares.length).toBeGreaterThan(400);
    expect(shares.filter((share) => share > 0.5).length / shares.length).toBeGreaterThan(0.8);
    expect(shares.filter((share) => share < 0.9).length / shares.length).toBeGreaterThan(0.05);
  });

  test('about half to two thirds of all eggs end in hatchlings that leave the nest', () => {
    // Emergence success of loggerheads 51.6 %, years 38.8-65.0 % (Brost et al. 2015, facts G3).
    const out = boils.reduce((sum, { truth }) => sum + truth.hatchlings, 0) / 600;
    expect(out / 112).toBeGreaterThan(0.388);
    expect(out / 112).toBeLessThan(0.65);
  });
});

test('hot dry seasons hatch sooner and cold wet ones later than ordinary ones', () => {
  const days = (weather: 'hot-dry' | 'ordinary' | 'cold-wet') =>
    mean(
      [1, 2, 3].flatMap((seed) =>
        durations(inventSeason({ nests: 40, seed, weather }), 'Caretta caretta'),
      ),
    );
  const ordinary = days('ordinary');
  // -4.7 d for each degree at 29 C (facts A2); the kinds of season differ by 0.8 to 1 C and by sun.
  expect(ordinary - days('hot-dry')).toBeGreaterThan(2);
  expect(days('cold-wet') - ordinary).toBeGreaterThan(2);
});

test('stormy seasons carry off more nests', () => {
  const lost = (weather: 'ordinary' | 'stormy') =>
    [1, 2, 3, 4, 5, 6, 7].flatMap((seed) =>
      inventSeason({ nests: 40, seed, weather }).truth.filter(({ outcome }) => outcome === 'lost'),
    ).length;
  expect(lost('stormy')).toBeGreaterThan(1.3 * lost('ordinary'));
});
