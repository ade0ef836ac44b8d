import { describe, expect, test } from 'vitest';
import { sandUnder } from '../../../src/core/invented-season/sand.ts';
import {
  inventWeather,
  type Weather,
  type WeatherDay,
} from '../../../src/core/invented-season/weather.ts';

const plain: WeatherDay = {
  air_c: 26,
  anomaly_c: 0,
  sun: 0.9,
  rain_mm: 0,
  lateRain: false,
  evening_ms: 3,
  dawn_ms: 2,
  surge_m: 0,
};

function weatherOf(on: (day: number) => Partial<WeatherDay>): Weather {
  return { first: 0, last: 60, on: (day) => ({ ...plain, ...on(day) }) };
}

describe('sand at nest depth', () => {
  test('follows the air with some days of delay', () => {
    const sand = sandUnder(
      weatherOf((day) => ({ air_c: day < 20 ? 26 : 30 })),
      0,
    );
    const rise = sand.on(60) - sand.on(19);
    expect(rise).toBeCloseTo(4, 2);
    const half = Array.from({ length: 40 }, (_, at) => at).find(
      (at) => sand.on(20 + at) - sand.on(19) > rise / 2,
    );
    expect(half).toBeGreaterThanOrEqual(2);
    expect(half).toBeLessThanOrEqual(5);
  });

  test('is cooled by extreme rain by one to seven degrees, and recovers', () => {
    // Extreme rain: 1.0-7.4 C cooler, mean 3.6 (79 nests, Laloe et al. 2021 Ecol Evol 11:560-565).
    const sand = sandUnder(
      weatherOf((day) => ({ rain_mm: day === 30 ? 110 : 0 })),
      0,
    );
    const drop = sand.on(29) - sand.on(30);
    expect(drop).toBeGreaterThan(1);
    expect(drop).toBeLessThan(7.4);
    expect(sand.on(29) - sand.on(55)).toBeLessThan(0.1);
  });

  test('is hardly cooled by a shower', () => {
    const sand = sandUnder(
      weatherOf((day) => ({ rain_mm: day === 30 ? 5 : 0 })),
      0,
    );
    expect(sand.on(29) - sand.on(30)).toBeLessThan(0.2);
  });

  test('is not known beyond the weather it came from', () => {
    expect(() =>
      sandUnder(
        weatherOf(() => ({})),
        0,
      ).on(61),
    ).toThrow(RangeError);
  });
});

test('summer is warmer than spring, and a cold wet year rains more than a hot dry one', () => {
  const year = (kind: 'hot-dry' | 'cold-wet') => inventWeather(3, kind, 0, 90, 300);
  const days = Array.from({ length: 30 }, (_, at) => at);
  const air_c = (kind: 'hot-dry' | 'cold-wet', from: number) =>
    days.reduce((sum, at) => sum + year(kind).on(from + at).air_c, 0) / days.length;
  const rain_mm = (kind: 'hot-dry' | 'cold-wet') =>
    Array.from({ length: 210 }, (_, at) => year(kind).on(90 + at).rain_mm).reduce(
      (a, b) => a + b,
      0,
    );
  expect(air_c('hot-dry', 200)).toBeGreaterThan(air_c('hot-dry', 92) + 2);
  expect(air_c('hot-dry', 200)).toBeGreaterThan(air_c('cold-wet', 200));
  expect(rain_mm('cold-wet')).toBeGreaterThan(1.5 * rain_mm('hot-dry'));
});
