import { describe, expect, test } from 'vitest';
import { clockGapText, clockGap_ms } from '../../../src/core/replication/clock-gap.ts';

const minute_ms = 60_000;
const hour_ms = 60 * minute_ms;

describe('a clock that is wrong', () => {
  test('is noticed beyond two minutes, either way', () => {
    expect(clockGap_ms(hour_ms, hour_ms, 0)).toBe(hour_ms);
    expect(clockGap_ms(0, 0, hour_ms)).toBe(-hour_ms);
    expect(clockGap_ms(minute_ms, minute_ms, 0)).toBeNull();
  });

  test('is not blamed for a slow line', () => {
    expect(clockGap_ms(0, 5 * minute_ms, 0)).toBeNull();
    expect(clockGap_ms(0, 10 * minute_ms, 5 * minute_ms)).toBeNull();
  });

  test('is said in words', () => {
    expect(clockGapText(2 * hour_ms + 5 * minute_ms)).toBe('2 h 5 min ahead');
    expect(clockGapText(-3 * minute_ms)).toBe('3 min behind');
    expect(clockGapText(49 * hour_ms)).toBe('2 d 1 h ahead');
  });
});
