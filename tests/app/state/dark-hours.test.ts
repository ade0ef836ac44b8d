import { describe, expect, test } from 'vitest';
import { isDarkOutside, placeOf } from '../../../src/app/state/dark-hours.ts';
import { darkMemory } from '../../../src/app/state/dark-memory.ts';
import { clock, zone } from '../../builders/season.ts';

const beach = { latitude_deg: 27, longitude_deg: -80 };
const northCape = { latitude_deg: 71, longitude_deg: 25 };

describe('whether it is dark outside', () => {
  test('on a beach in July: light at seven, dark at nine in the evening and before dawn', () => {
    expect(isDarkOutside(beach, zone, clock('2026-07-20', '19:00'))).toBe(false);
    expect(isDarkOutside(beach, zone, clock('2026-07-20', '21:00'))).toBe(true);
    expect(isDarkOutside(beach, zone, clock('2026-07-21', '05:00'))).toBe(true);
    expect(isDarkOutside(beach, zone, clock('2026-07-21', '07:30'))).toBe(false);
    expect(isDarkOutside(beach, zone, clock('2026-07-21', '12:00'))).toBe(false);
  });

  test('where the sun stays up it is never dark, where it stays down always', () => {
    expect(isDarkOutside(northCape, 'Europe/Oslo', Date.UTC(2026, 5, 21, 23))).toBe(false);
    expect(isDarkOutside(northCape, 'Europe/Oslo', Date.UTC(2026, 11, 21, 11))).toBe(true);
  });

  test('without a position the clock decides, and errs to the dark', () => {
    expect(isDarkOutside(null, zone, clock('2026-07-20', '19:00'))).toBe(true);
    expect(isDarkOutside(null, zone, clock('2026-07-20', '06:59'))).toBe(true);
    expect(isDarkOutside(null, zone, clock('2026-07-20', '12:00'))).toBe(false);
  });

  test('a programme with half a position has none', () => {
    expect(placeOf({ latitude: 27 })).toBeNull();
    expect(placeOf({ latitude: 0, longitude: 0 })).toEqual({ latitude_deg: 0, longitude_deg: 0 });
  });
});

describe('what the next start is told', () => {
  test('the dark hours of a month, the same that the app itself goes by', () => {
    const now_ms = clock('2026-07-20', '15:00');
    const { switch: darkSwitch, spans } = darkMemory('auto', beach, zone, now_ms);
    expect(darkSwitch).toBe('auto');
    expect(spans).toHaveLength(30);
    for (let hour = 0; hour < 48; hour++) {
      const at_ms = now_ms + hour * 3_600_000;
      const told = spans.some(([from_ms, to_ms]) => at_ms >= from_ms && at_ms < to_ms);
      expect(told).toBe(isDarkOutside(beach, zone, at_ms));
    }
  });

  test('nights without dark have no dark hours', () => {
    const { spans } = darkMemory('auto', northCape, 'Europe/Oslo', Date.UTC(2026, 5, 10, 12));
    expect(spans.every(([from_ms, to_ms]) => from_ms === to_ms)).toBe(true);
  });
});
