import { expect, test } from 'vitest';
import { backoff_ms } from '../../../src/core/replication/backoff.ts';

test('waits about twice as long after each failure, up to five minutes, and never nothing', () => {
  expect([1, 2, 3, 4].map((failures) => backoff_ms(failures, 0.999999))).toEqual([
    2000, 4000, 8000, 16000,
  ]);
  expect(backoff_ms(1, 0)).toBe(1000);
  expect(backoff_ms(50, 0)).toBe(150_000);
  expect(backoff_ms(1000, 0.999999)).toBeLessThanOrEqual(300_000);
});
