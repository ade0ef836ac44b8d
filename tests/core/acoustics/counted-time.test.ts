import { expect, test } from 'vitest';
import { CountedTime } from '../../../src/core/acoustics/counted-time.ts';

function minute(): CountedTime {
  const time = new CountedTime();
  time.growTo(60);
  return time;
}

test('all time counts until something says otherwise', () => {
  expect(minute().upTo(Infinity)).toEqual({ usable_s: 60, active_share: 0, rush_share: 0 });
  expect(minute().upTo(29.9).usable_s).toBe(30);
});

test('a walk and rain in the same stretch are taken out once, and the walk is the reason', () => {
  const time = minute();
  time.exclude({ from_s: 10, to_s: 19.9 }, 'rained');
  time.exclude({ from_s: 15, to_s: 24.9 }, 'walked');
  time.exclude({ from_s: 10, to_s: 19.9 }, 'rained');
  expect(time.upTo(Infinity).usable_s).toBe(45);
  expect(time.share('walked')).toBeCloseTo(10 / 60, 6);
  expect(time.share('rained')).toBeCloseTo(5 / 60, 6);
  expect(time.doesCount(12)).toBe(false);
  expect(time.doesCount(25.1)).toBe(true);
});

test('scratches fill the share of their length, and no moment twice', () => {
  const time = minute();
  time.scratchAt(5.1, 0.6);
  time.scratchAt(5.1, 0.6);
  const filled = 60 * (time.upTo(Infinity).active_share ?? 0);
  expect(filled).toBeGreaterThan(0.6);
  expect(filled).toBeLessThanOrEqual(1);
});

test('a rush fills its stretch, and what is excluded of it does not count', () => {
  const time = minute();
  time.rush({ from_s: 0, to_s: 30 });
  time.exclude({ from_s: 0, to_s: 14.9 }, 'walked');
  expect(time.upTo(Infinity).rush_share).toBeCloseTo(15 / 45, 6);
});
