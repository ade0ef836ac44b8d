import { describe, expect, test } from 'vitest';
import { addNights, nightBounds, parseNight } from '../../../src/core/domain/night.ts';
import type { Place } from '../../../src/core/sky/place.ts';
import { moonAt, moonTimes } from '../../../src/core/sky/moon.ts';

const HOUR_MS = 3_600_000;

// An invented shore, at a latitude where sea turtles nest.
const shore = { latitude_deg: 28, longitude_deg: -80.5 };
const zone = 'America/New_York';

function boundsOf(date: string, inZone: string, later = 0) {
  const night = parseNight(date);
  if (night === null) throw new Error(`no such night: ${date}`);
  return nightBounds(addNights(night, later), inZone);
}

function moonOf(place: Place, date: string, inZone: string, later = 0) {
  const { from_ms, to_ms } = boundsOf(date, inZone, later);
  return { ...moonTimes(place, from_ms, to_ms), from_ms, to_ms };
}

describe('the Moon through a night', () => {
  test('a full moon rises about sunset and sets about sunrise', () => {
    // Full on 28 August 2026 04:18 UTC: the night of the 27th.
    const { rise, set, from_ms } = moonOf(shore, '2026-08-27', zone);
    if (rise.kind !== 'at' || set.kind !== 'at') throw new Error('the full moon rises and sets');
    expect(Math.abs(rise.time_ms - (from_ms + 7.7 * HOUR_MS))).toBeLessThan(HOUR_MS);
    expect(Math.abs(set.time_ms - (from_ms + 19 * HOUR_MS))).toBeLessThan(HOUR_MS);
  });

  test('it comes up later each night, 24 to 75 minutes at this latitude', () => {
    const rises: number[] = [];
    for (let later = 0; later < 8; later++) {
      const { rise } = moonOf(shore, '2026-08-25', zone, later);
      if (rise.kind === 'at') rises.push(rise.time_ms);
    }
    expect(rises).toHaveLength(8);
    for (let k = 1; k < rises.length; k++) {
      const later_min = ((rises[k] ?? NaN) - (rises[k - 1] ?? NaN)) / 60_000 - 1440;
      expect(later_min).toBeGreaterThan(24);
      expect(later_min).toBeLessThan(75);
    }
  });

  test('once a month no moonrise falls between two noons: it says not tonight, never a wrong night', () => {
    let without = 0;
    for (let later = 0; later < 30; later++) {
      const { rise, set, up, from_ms } = moonOf(shore, '2026-06-01', zone, later);
      if (rise.kind !== 'not tonight') continue;
      without++;
      expect(set.kind).toBe('at');
      expect(up).toHaveLength(1);
      expect(up[0]?.from_ms).toBe(from_ms);
    }
    expect(without).toBe(1);
  });

  test('inside the spans it is up, outside it is down', () => {
    for (let later = 0; later < 30; later++) {
      const { up, from_ms, to_ms } = moonOf(shore, '2026-06-01', zone, later);
      for (let at_ms = from_ms; at_ms < to_ms; at_ms += HOUR_MS / 2) {
        const { altitude_deg } = moonAt(shore, at_ms);
        // Its upper edge is what rises, a quarter of a degree above the centre.
        if (Math.abs(altitude_deg) < 0.6) continue;
        const inSpan = up.some((span) => span.from_ms <= at_ms && at_ms <= span.to_ms);
        expect(inSpan).toBe(altitude_deg > 0);
      }
    }
  });

  test('nights on which the clocks change are covered to their last hour', () => {
    for (const [date, hours] of [
      ['2026-03-07', 23],
      ['2026-10-31', 25],
    ] as const) {
      const { up, from_ms, to_ms } = moonOf(shore, date, zone);
      expect(to_ms - from_ms).toBe(hours * HOUR_MS);
      for (const span of up) {
        expect(span.from_ms).toBeGreaterThanOrEqual(from_ms);
        expect(span.to_ms).toBeLessThanOrEqual(to_ms);
        expect(span.to_ms).toBeGreaterThan(span.from_ms);
      }
      const last_deg = moonAt(shore, to_ms - 60_000).altitude_deg;
      expect(up.at(-1)?.to_ms === to_ms).toBe(last_deg > 0);
    }
  });
});

describe('the Moon far north', () => {
  const north = { latitude_deg: 69, longitude_deg: 19 };

  test('at 69 north it stays up for days and down for days in one month, and says so', () => {
    const seen = new Set<string>();
    for (let later = 0; later < 28; later++) {
      const { rise, set, up, from_ms, to_ms } = moonOf(north, '2026-12-01', 'Europe/Oslo', later);
      seen.add(rise.kind);
      const middle_deg = moonAt(north, (from_ms + to_ms) / 2).altitude_deg;
      if (rise.kind === 'always up') {
        expect(set.kind).toBe('always up');
        expect(up).toEqual([{ from_ms, to_ms }]);
        expect(middle_deg).toBeGreaterThan(-0.26);
      }
      if (rise.kind === 'always down') {
        expect(set.kind).toBe('always down');
        expect(up).toEqual([]);
        expect(middle_deg).toBeLessThan(0);
      }
    }
    expect(seen).toContain('always up');
    expect(seen).toContain('always down');
    expect(seen).toContain('at');
  });
});

describe('a place that cannot be', () => {
  test('is refused by name and value', () => {
    expect(() => moonAt({ latitude_deg: 0, longitude_deg: 200 }, 0)).toThrow(
      'longitude lies from -180 to 180 degrees, not 200',
    );
  });
});
