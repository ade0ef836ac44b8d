import { describe, expect, test } from 'vitest';
import {
  chanceClass,
  factorText,
  levelWords,
  nightsLeft,
  spokenChance,
} from '../../../src/app/screens/tonight/chance-words.ts';
import type { NestForecast, Reason } from '../../../src/core/forecast/forecast.ts';
import { addNights } from '../../../src/core/domain/night.ts';
import { night } from '../../builders/season.ts';

const tonight = night('2026-07-20');
const due = (median: number | null, low: number | null, high: number | null) =>
  nightsLeft(
    {
      medianNight: median === null ? null : addNights(tonight, median),
      lowNight: low === null ? null : addNights(tonight, low),
      highNight: high === null ? null : addNights(tonight, high),
    } as NestForecast,
    tonight,
  );
const by = (factor: number) => factorText({ factor } as Reason);

test('nothing short of a sighting is told as certain', () => {
  expect(spokenChance(0)).toBe('less than 1 percent');
  expect(spokenChance(1)).toBe('more than 99 percent');
  expect(spokenChance(0.384)).toBe('38 percent');
});

test('nights left are told with their spread', () => {
  expect(due(0, 0, 3)).toBe('due tonight (0 to 3)');
  expect(due(1, 0, 4)).toBe('1 night left (0 to 4)');
  expect(due(12, 6, 20)).toBe('12 nights left (6 to 20)');
  expect(due(null, null, null)).toBe('likely past, or never');
});

test('factors are told with as many digits as they bear', () => {
  expect([3.42, 12.7, 0.62, 0.034, 250, 0.001].map(by)).toEqual([
    '×3.4',
    '×13',
    '×0.6',
    '×0.03',
    '×100 or more',
    '×less than 0.01',
  ]);
});

test('marks on the beach fall into three classes', () => {
  expect([0.5, 0.2, 0.1, 0.05, 0.01].map(chanceClass)).toEqual([
    'high',
    'high',
    'middle',
    'middle',
    'low',
  ]);
});

describe('the season level in words', () => {
  const level = (days: number, emerged: number, waiting: number) =>
    levelWords({ mean: 0, sd: 0.02, days, emerged, waiting, converged: true });
  test('late, early, usual, and too early to say', () => {
    expect(level(2.2, 31, 40)).toBe(
      'This season runs 2 nights later than usual (from 31 nests up, 40 waiting).',
    );
    expect(level(-1.1, 1, 4)).toBe(
      'This season runs 1 night earlier than usual (from 1 nest up, 4 waiting).',
    );
    expect(level(0.3, 5, 4)).toContain('about as usual');
    expect(level(0, 0, 0)).toContain('Too early');
  });
});
