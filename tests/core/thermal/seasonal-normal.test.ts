import { describe, expect, test } from 'vitest';
import { asNight, parseNight } from '../../../src/core/domain/night.ts';
import { randomStream } from '../../../src/core/numerics/random.ts';
import {
  expectedYear,
  fitSeasonalNormal,
  normalOn,
  yearly_rad,
} from '../../../src/core/thermal/seasonal-normal.ts';

const on = (date: string): number => parseNight(date) ?? asNight(0);
const truth = (day: number) => 24 + 5 * Math.cos(yearly_rad * (day - 205));
const measured = (from: string, days: number, off: (day: number) => number = () => 0) =>
  new Map(
    Array.from({ length: days }, (_, at) => on(from) + at).map((day) => [
      day,
      truth(day) + off(day),
    ]),
  );

describe('the seasonal normal', () => {
  test('of three years of readings is the wave behind them', () => {
    const random = randomStream(7, 'weather');
    let weather_c = 0;
    const years = measured('2023-01-01', 3 * 365, () => {
      weather_c = 0.9 * weather_c + random.normal(0, 0.4);
      return weather_c;
    });
    const normal = fitSeasonalNormal(years, expectedYear(null));
    for (const date of ['2026-01-15', '2026-04-15', '2026-07-15', '2026-10-15']) {
      // Weather of SD 0.92 with a memory of ten days: a mean of three years has an SD of 0.12, a
      // wave 0.17.
      expect(Math.abs(normalOn(normal, on(date)) - truth(on(date)))).toBeLessThan(0.6);
    }
  });

  test('of two months tells the next month better than the mean of the two does', () => {
    const spring = measured('2026-05-01', 61);
    const mean = [...spring.values()].reduce((sum, each) => sum + each, 0) / 61;
    for (const latitude_deg of [null, 27]) {
      const normal = fitSeasonalNormal(spring, expectedYear(latitude_deg));
      const ahead = on('2026-07-30');
      const off_c = Math.abs(normalOn(normal, ahead) - truth(ahead));
      expect(off_c).toBeLessThan(0.5 * Math.abs(mean - truth(ahead)));
    }
  });

  test('of no reading at all is what the latitude leads one to expect', () => {
    const [north, south, unknown] = [27, -27, null].map((latitude_deg) =>
      fitSeasonalNormal(new Map(), expectedYear(latitude_deg)),
    );
    const warmth = (normal: typeof north) =>
      normalOn(normal!, on('2026-08-01')) - normalOn(normal!, on('2026-02-01'));
    expect(warmth(north)).toBeCloseTo(2 * 5.4, 1);
    expect(warmth(south)).toBeCloseTo(-2 * 5.4, 1);
    expect(warmth(unknown)).toBe(0);
  });

  test('of one hot day stays near what was expected', () => {
    const year = expectedYear(27);
    const day = on('2026-06-01');
    const usual_c = normalOn(year.normal, day);
    const normal = fitSeasonalNormal(new Map([[day, usual_c + 6]]), year);
    const moved_c = normalOn(normal, day) - usual_c;
    // Prior variance 25 + 1.5^2 against 20 for a single day.
    expect(moved_c).toBeCloseTo((6 * 27.25) / (27.25 + 20), 6);
  });
});
