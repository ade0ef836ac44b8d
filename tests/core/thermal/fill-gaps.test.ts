import { describe, expect, test } from 'vitest';
import { DailyValues } from '../../../src/core/thermal/daily-values.ts';
import { fillGaps } from '../../../src/core/thermal/fill-gaps.ts';

const base = new DailyValues(0, 800, () => 28);

describe('a series with gaps', () => {
  test('keeps every measured value, and its base where nothing was measured', () => {
    const filled = fillGaps(base, new Map([[40, 29.3]]));
    expect(filled.at(40)).toBe(29.3);
    const untouched = fillGaps(base, new Map());
    expect([0, 400, 800].map((day) => untouched.at(day))).toEqual([28, 28, 28]);
  });

  test('is bridged straight over a few days', () => {
    const filled = fillGaps(
      base,
      new Map([
        [100, 30],
        [104, 31],
      ]),
    );
    // sinh is straight to a part in fifty over 0.4 of a memory.
    [30.25, 30.5, 30.75].forEach((expected, at) => {
      expect(Math.abs(filled.at(101 + at) - expected)).toBeLessThan(0.06);
    });
  });

  test('follows the course of its base across the gap, not a straight line', () => {
    const waving = new DailyValues(0, 50, (day) => 28 + Math.sin(day));
    const filled = fillGaps(
      waving,
      new Map([
        [20, waving.at(20) + 1],
        [25, waving.at(25) + 1],
      ]),
    );
    for (let day = 21; day < 25; day++) {
      expect(Math.abs(filled.at(day) - waving.at(day) - 1)).toBeLessThan(0.04);
    }
  });

  test('returns to its base in the middle of a gap of years', () => {
    const filled = fillGaps(
      base,
      new Map([
        [10, 33],
        [790, 22],
      ]),
    );
    expect(filled.at(400)).toBeCloseTo(28, 9);
    expect(filled.at(11)).toBeCloseTo(28 + 5 * Math.exp(-0.1), 6);
  });

  test('is the mean of a process that forgets: the closed form holds on every day', () => {
    const filled = fillGaps(
      base,
      new Map([
        [100, 30],
        [125, 27],
      ]),
    );
    for (let day = 101; day < 125; day++) {
      const [since, left] = [(day - 100) / 10, (125 - day) / 10];
      const expected = (2 * Math.sinh(left) - Math.sinh(since)) / Math.sinh(2.5);
      expect(filled.at(day)).toBeCloseTo(28 + expected, 9);
    }
  });

  test('carries a warm season on beyond its last day, fading', () => {
    const season = new Map(Array.from({ length: 60 }, (_, at) => [100 + at, 29]));
    const filled = fillGaps(base, season);
    const ahead = [160, 175, 200, 260].map((day) => filled.at(day) - 28);
    expect(ahead).toEqual([...ahead].sort((a, b) => b - a));
    expect(ahead[0]!).toBeGreaterThan(0.9);
    expect(ahead[2]!).toBeGreaterThan(0.4);
    expect(ahead[3]!).toBeLessThan(0.4);
    expect(filled.at(60)).toBeCloseTo(filled.at(199), 9);
  });
});

test('a day outside the stretch is refused by name', () => {
  expect(() => base.at(801)).toThrow('Day 801 lies outside the days 0..800.');
  expect(() => base.set(-1, 0)).toThrow(RangeError);
});
