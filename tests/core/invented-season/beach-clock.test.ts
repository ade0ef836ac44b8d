import { expect, test } from 'vitest';
import { beachClock } from '../../../src/core/invented-season/beach-clock.ts';
import { nightNumber } from './season-columns.ts';

const clock = beachClock(27, -74, 'America/New_York');

test('a moment after midnight is written with the next date and keeps its night', () => {
  const night = nightNumber('2026-07-20');
  expect(clock.text(night + 9.5 / 24)).toBe('2026-07-20T21:30-04:00');
  expect(clock.text(night + 14.25 / 24)).toBe('2026-07-21T02:15-04:00');
  expect(clock.date(night)).toBe('2026-07-20');
});

test('the night in which the clocks go back has one hour twice', () => {
  const night = nightNumber('2026-10-31');
  expect(clock.text(night + 13.5 / 24)).toBe('2026-11-01T01:30-04:00');
  expect(clock.text(night + 14.5 / 24)).toBe('2026-11-01T01:30-05:00');
});

test('the sun sets after the noon of a night and rises before its next', () => {
  const night = nightNumber('2026-06-21');
  // Near 27 N the longest day has some 13 h 45 min of sun: a sanity bound, not an almanac.
  const dark_h = (clock.sunrise(night) - clock.sunset(night)) * 24;
  expect(clock.sunset(night)).toBeGreaterThan(night);
  expect(clock.sunrise(night)).toBeLessThan(night + 1);
  expect(dark_h).toBeGreaterThan(10);
  expect(dark_h).toBeLessThan(10.5);
});

test('a beach where the sun does not set has no evening walks to invent', () => {
  const north = beachClock(75, 0, 'UTC');
  expect(() => north.sunset(nightNumber('2026-06-21'))).toThrow('always up');
});
