import { describe, expect, test } from 'vitest';
import { DailyValues } from '../../../src/core/thermal/daily-values.ts';
import {
  dampingDepth_m,
  depthWeights,
  normalAtDepth,
  sandFromAir,
} from '../../../src/core/thermal/sand-from-air.ts';
import { normalOn, yearly_rad } from '../../../src/core/thermal/seasonal-normal.ts';

/**
 * Truth: the periodic solution of heat conduction in a half-space, a textbook formula:
 * T(z, t) = A exp(-z/d) cos(omega t - z/d), d = sqrt(2 alpha / omega); here z = 0.45 m and
 * alpha = 0.4 mm2/s.
 */
const depth_m = 0.45;
const alpha_m2_day = 0.03456;
const truth = (period_days: number) => {
  const omega = (2 * Math.PI) / period_days;
  const depths = depth_m / Math.sqrt((2 * alpha_m2_day) / omega);
  return { omega, share: Math.exp(-depths), lag_days: depths / omega };
};

const flat = { level_c: 27, cosine_c: 0, sine_c: 0 };

describe.each([8, 15, 20, 30])('air that waves with a period of %s days', (period_days) => {
  const { omega, share, lag_days } = truth(period_days);
  const air = new DailyValues(0, 400, (day) => 27 + 2 * Math.cos(omega * day));
  const sand = sandFromAir(air, flat, new Map());
  const whole = Array.from({ length: 240 }, (_, at) => 120 + at);
  const level = whole.reduce((sum, day) => sum + sand.at(day), 0) / whole.length;
  const along = (of: (angle: number) => number) =>
    (2 / whole.length) *
    whole.reduce((sum, day) => sum + (sand.at(day) - level) * of(omega * day), 0);
  const [cosine, sine] = [along(Math.cos), along(Math.sin)];

  test('reaches the nest as much damped as conduction says', () => {
    // Sixty remembered days hold all but the slowest part of the response: two hundredths of the
    // wave.
    expect(Math.abs(Math.hypot(cosine, sine) / 2 - share)).toBeLessThan(0.02);
  });

  test('reaches the nest as late as conduction says', () => {
    const turn = Math.atan2(sine, cosine) / omega;
    const late_days = turn < 0 ? turn + period_days : turn;
    expect(Math.abs(late_days - lag_days)).toBeLessThan(0.15);
  });
});

test('weather lags by about four days at nest depth, the day’s wave does not reach it', () => {
  expect(truth(30).lag_days).toBeGreaterThan(3);
  expect(truth(30).lag_days).toBeLessThan(4.5);
  expect(truth(1).share).toBeLessThan(0.05);
  // sqrt(2 alpha / omega) at a period of a day: 9-15 cm for sand (textbook of soil physics).
  expect(dampingDepth_m(1)).toBeGreaterThan(0.09);
  expect(dampingDepth_m(1)).toBeLessThan(0.15);
});

test('the wave of the year is damped and late by the same law', () => {
  const { omega, share, lag_days } = truth((2 * Math.PI) / yearly_rad);
  const warmest = 200;
  const below = normalAtDepth({
    level_c: 25,
    cosine_c: 5 * Math.cos(omega * warmest),
    sine_c: 5 * Math.sin(omega * warmest),
  });
  for (const day of [0, 90, 200, 300]) {
    const expected = 25 + 5 * share * Math.cos(omega * (day - warmest - lag_days));
    expect(normalOn(below, day)).toBeCloseTo(expected, 9);
  }
});

test('a lasting degree on the surface is felt at nest depth by as much as the step response says', () => {
  // erfc(z / (2 sqrt(alpha t))) with t in the middle of the day; erfc from a table (Abramowitz &
  // Stegun 7.1):
  // erfc(0.5) = 0.479500, erfc(1) = 0.157299. Days are means, so a few thousandths off.
  const weights = depthWeights(40);
  const felt = (after_days: number) =>
    weights.slice(0, after_days).reduce((sum, each) => sum + each, 0);
  const daysFor = (x: number) => (depth_m / (2 * x)) ** 2 / alpha_m2_day;
  for (const [x, erfc] of [
    [0.5, 0.4795],
    [1, 0.157299],
  ] as const) {
    const at = daysFor(x);
    const [low, high] = [Math.floor(at + 0.5), Math.ceil(at + 0.5)];
    expect(felt(low)).toBeLessThan(erfc + 0.01);
    expect(felt(high)).toBeGreaterThan(erfc - 0.01);
  }
  expect(Math.min(...weights)).toBeGreaterThan(0);
});

describe('rain', () => {
  const air = new DailyValues(0, 100, () => 27);
  const cooled_c = (mm: number, after: number) => {
    const rains = (amount: number) =>
      new Map(Array.from({ length: 100 }, (_, day) => [day, day === 50 ? amount : 0]));
    const [wet, dry] = [mm, 0].map((amount) => sandFromAir(air, flat, rains(amount)));
    // The mean of the record starts the memory off; by day 50 that is forgotten.
    return dry!.at(50 + after) - wet!.at(50 + after);
  };

  test('of a storm cools a nest by what was measured in extremes', () => {
    // Maximum drop 3.6 C in the mean, 1.0-7.4 (79 nests, Laloe et al. 2021 Ecol Evol 11:560-565).
    expect(cooled_c(200, 0)).toBeGreaterThan(3);
    expect(cooled_c(200, 0)).toBeLessThan(3.7);
    expect(cooled_c(200, 10)).toBeLessThan(cooled_c(200, 0) / 5);
  });

  test('of a shower stays in the top of the sand', () => {
    expect(cooled_c(10, 0)).toBeCloseTo(0, 6);
    expect(cooled_c(40, 0)).toBeGreaterThan(0.5);
  });

  test('that nobody measured is taken for that of the other days', () => {
    const halfKnown = new Map(Array.from({ length: 50 }, (_, at) => [2 * at, 30]));
    const known = new Map(Array.from({ length: 101 }, (_, day) => [day, 30]));
    const [half, all] = [halfKnown, known].map((rain) => sandFromAir(air, flat, rain));
    expect(half!.at(80)).toBeCloseTo(all!.at(80), 9);
  });
});
