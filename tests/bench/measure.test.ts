import { describe, expect, test } from 'vitest';
import { measure, median, told } from '../../bench/measure.ts';

describe('the median of several runs', () => {
  test('is the middle one, or between the two in the middle', () => {
    expect(median([9, 1, 5])).toBe(5);
    expect(median([4, 1, 3, 2])).toBe(2.5);
  });

  test('does not exist for no runs', () => {
    expect(() => median([])).toThrow('no values');
  });
});

test('the runs that warm up are done and not counted', async () => {
  let done = 0;
  const found = await measure(() => done++, { repeats: 3, warmUps: 2 });
  expect(done).toBe(5);
  expect(found.runs).toBe(3);
  expect(found.fastest_ms).toBeLessThanOrEqual(found.median_ms);
  expect(found.peak_mb).toBeGreaterThan(1);
});

test('a measured time is told with its spread and the memory', () => {
  const line = told('refresh', {
    runs: 3,
    median_ms: 12.34,
    fastest_ms: 11,
    slowest_ms: 15,
    peak_mb: 80,
  });
  expect(line).toMatch(/^refresh +12\.3 ms \(11\.0 to 15\.0\), peak 80 MB$/);
});
