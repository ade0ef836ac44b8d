import { describe, expect, test } from 'vitest';
import { Species } from '../../../src/core/domain/species.ts';
import {
  developmentDays,
  developmentLine,
  developmentPerDay,
} from '../../../src/core/thermal/development.ts';
import { metabolicHeat_c } from '../../../src/core/thermal/metabolic-heat.ts';

const loggerhead = developmentLine('Caretta caretta');
const noHeat = () => 0;

describe('sand that warms at a stroke', () => {
  test.each([10, 25, 25.5, 40])('after %s days gives the days that arithmetic gives', (before) => {
    const [cool, warm] = [28, 31].map((at_c) => (at_c - 16.8) / 708) as [number, number];
    const whole = Math.floor(before);
    const mixed_c = 28 * (before - whole) + 31 * (1 - before + whole); // the day of the change, mean
    const sand_c = (day: number) => (day <= whole ? 28 : day === whole + 1 ? mixed_c : 31);
    const expected = before + (1 - before * cool) / warm;
    expect(developmentDays(loggerhead, sand_c, noHeat)).toBeCloseTo(expected, 9);
  });
});

test('the last day counts in part', () => {
  const line = { zero_c: 10, degreeDays: 205, toBoil_nights: 0 };
  expect(developmentDays(line, () => 30, noHeat)).toBeCloseTo(10.25, 12);
});

test('sand hotter than 32.5 C hurries no embryo more, and cold sand does not stop the count', () => {
  expect(developmentPerDay(loggerhead, 36)).toBe(developmentPerDay(loggerhead, 32.5));
  expect(developmentPerDay(loggerhead, 12)).toBe(developmentPerDay(loggerhead, 21.8));
  expect(developmentPerDay(loggerhead, 32)).toBeLessThan(developmentPerDay(loggerhead, 32.5));
});

test.each([...Species.options, null])('warmer sand brings %s up earlier', (species) => {
  const line = developmentLine(species);
  const days = [26, 28, 30, 32].map((at_c) => developmentDays(line, () => at_c, noHeat));
  expect(days).toEqual([...days].sort((a, b) => b - a));
  expect(new Set(days).size).toBe(4);
});

describe('a clutch’s own heat', () => {
  test('is nil in the first third, slight in the second, and rises to 2.5 C at the end', () => {
    expect(metabolicHeat_c(0)).toBe(0);
    expect(metabolicHeat_c(0.33)).toBe(0);
    expect(metabolicHeat_c(0.34)).toBe(0.4);
    expect(metabolicHeat_c(0.66)).toBe(0.4);
    expect(metabolicHeat_c(5 / 6)).toBeCloseTo(1.45, 12);
    expect(metabolicHeat_c(1)).toBe(2.5);
    expect(metabolicHeat_c(1.01)).toBe(2.5);
  });

  test.each([26, 28, 30])(
    'shortens incubation in sand of %s C by what integration in closed form gives',
    (sand_c) => {
      // A third of development at each heat h takes (DD/3) / (T + h - T0) days; a heat that rises
      // straight with development from a to b takes DD/3 ln((T + b - T0)/(T + a - T0)) / (b - a).
      const over_c = sand_c - 16.8;
      const third = 708 / 3;
      const expected =
        third / over_c +
        third / (over_c + 0.4) +
        (third * Math.log((over_c + 2.5) / (over_c + 0.4))) / 2.1;
      // A day's step may begin on one side of a third and end on the other: within a twentieth of a
      // day.
      const days = developmentDays(loggerhead, () => sand_c, metabolicHeat_c);
      expect(Math.abs(days - expected)).toBeLessThan(0.05);
      expect(developmentDays(loggerhead, () => sand_c, noHeat) - days).toBeGreaterThan(2);
    },
  );
});
