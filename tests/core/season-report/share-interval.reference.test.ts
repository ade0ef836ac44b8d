import { expect, test } from 'vitest';
import { shareInterval } from '../../../src/core/season-report/share-interval.ts';

// Truth: Newcombe 1998, Statistics in Medicine 17:857-872, table I, score method at 95 % (from
// memory); given there to four decimals, so half of the last one is rounding.
test.each([
  { count: 81, n: 263, low: 0.2553, high: 0.3662 },
  { count: 15, n: 148, low: 0.0624, high: 0.1605 },
  { count: 0, n: 20, low: 0, high: 0.1611 },
  { count: 1, n: 29, low: 0.0061, high: 0.1718 },
])('$count of $n lies between $low and $high', ({ count, n, low, high }) => {
  const interval = shareInterval(count, n, 1.959964);
  expect(Math.abs((interval?.low ?? 1) - low)).toBeLessThan(0.00006);
  expect(Math.abs((interval?.high ?? 0) - high)).toBeLessThan(0.00006);
});

test('90 % bounds lie inside the 95 % ones, and there are none of nothing', () => {
  const [narrow, wide] = [shareInterval(3, 11), shareInterval(3, 11, 1.959964)];
  expect(narrow!.low).toBeGreaterThan(wide!.low);
  expect(narrow!.high).toBeLessThan(wide!.high);
  expect(shareInterval(0, 0)).toBeNull();
});
