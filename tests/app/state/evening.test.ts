import { expect, test } from 'vitest';
import { eveningOf, momentAt, tonightAt } from '../../../src/app/state/evening.ts';
import { formatInstant } from '../../../src/core/domain/instant.ts';
import { formatNight } from '../../../src/core/domain/night.ts';
import { clock, night, zone } from '../../builders/season.ts';

test('a sitter at two in the morning is still in the night that began the evening before', () => {
  expect(formatNight(tonightAt(clock('2026-07-21', '02:10'), zone))).toBe('2026-07-20');
});

test('a walk at dawn belongs to the night that is ending', () => {
  expect(formatNight(tonightAt(clock('2026-07-21', '06:30'), zone))).toBe('2026-07-20');
});

test('from nine in the morning tonight is the evening to come', () => {
  expect(formatNight(tonightAt(clock('2026-07-21', '08:59'), zone))).toBe('2026-07-20');
  expect(formatNight(tonightAt(clock('2026-07-21', '09:00'), zone))).toBe('2026-07-21');
});

test('the ranking uses notes up to the very moment', () => {
  const at_ms = clock('2026-07-20', '21:10');
  expect(momentAt(at_ms, zone)).toEqual({ night: night('2026-07-20'), at_ms });
});

test('an invented evening begins at 19:40 on its own clocks', () => {
  const at_ms = eveningOf(night('2026-07-20'), zone);
  expect(formatInstant(at_ms, zone)).toBe('2026-07-20T19:40-04:00');
});
