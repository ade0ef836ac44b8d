import { describe, expect, test } from 'vitest';
import { addNights, nightBounds, parseNight } from '../../../src/core/domain/night.ts';
import { darkness, type Twilight } from '../../../src/core/sky/darkness.ts';
import { moonAt } from '../../../src/core/sky/moon.ts';
import type { Place } from '../../../src/core/sky/place.ts';

// An invented shore, at a latitude where sea turtles nest.
const shore = { latitude_deg: 28, longitude_deg: -80.5 };
const zone = 'America/New_York';

function darkOf(place: Place, date: string, inZone: string, endOf?: Twilight, later = 0) {
  const night = parseNight(date);
  if (night === null) throw new Error(`no such night: ${date}`);
  const { from_ms, to_ms } = nightBounds(addNights(night, later), inZone);
  return darkness(place, from_ms, to_ms, endOf);
}

function spanOf({ dark }: ReturnType<typeof darkness>) {
  if (dark.kind !== 'dark') throw new Error('this night gets dark');
  return { from_ms: dark.from_ms, to_ms: dark.to_ms };
}

describe('when it is dark and without moon', () => {
  test('at new moon the whole of the dark is without moon', () => {
    // New on 12 August 2026 17:37 UTC.
    const tonight = darkOf(shore, '2026-08-12', zone);
    expect(tonight.moonless).toEqual([spanOf(tonight)]);
    expect(tonight.moonAtMiddle.illuminatedShare).toBeLessThan(0.01);
  });

  test('at full moon none of the dark is without moon', () => {
    // Full on 28 August 2026 04:18 UTC.
    const tonight = darkOf(shore, '2026-08-27', zone);
    expect(tonight.moonless).toEqual([]);
    expect(tonight.moonless_min).toBe(0);
    expect(tonight.moonAtMiddle.illuminatedShare).toBeGreaterThan(0.99);
    expect(tonight.moonAtMiddle.altitude_deg).toBeGreaterThan(30);
  });

  test('a waxing half moon leaves the hours after it has set', () => {
    const tonight = darkOf(shore, '2026-08-19', zone);
    const { set } = tonight.moon;
    if (set.kind !== 'at') throw new Error('the half moon sets');
    expect(tonight.moonless).toEqual([{ from_ms: set.time_ms, to_ms: spanOf(tonight).to_ms }]);
  });

  test('a waning half moon leaves the hours before it rises', () => {
    const tonight = darkOf(shore, '2026-09-04', zone);
    const { rise } = tonight.moon;
    if (rise.kind !== 'at') throw new Error('the half moon rises');
    expect(tonight.moonless).toEqual([{ from_ms: spanOf(tonight).from_ms, to_ms: rise.time_ms }]);
  });

  test('minute by minute through a month, moonless means dark with the Moon down', () => {
    for (let later = 0; later < 30; later++) {
      const tonight = darkOf(shore, '2026-07-01', zone, 'nautical', later);
      const { from_ms, to_ms } = spanOf(tonight);
      let counted_min = 0;
      for (let at_ms = from_ms; at_ms < to_ms; at_ms += 5 * 60_000) {
        const { altitude_deg } = moonAt(shore, at_ms);
        const inside = tonight.moonless.some((s) => s.from_ms <= at_ms && at_ms <= s.to_ms);
        if (Math.abs(altitude_deg) > 0.6) expect(inside).toBe(altitude_deg < 0);
        if (inside) counted_min += 5;
      }
      expect(Math.abs(counted_min - tonight.moonless_min)).toBeLessThanOrEqual(10);
    }
  });

  test('the deeper the twilight that counts, the shorter the dark', () => {
    const lengths_ms = (['civil', 'nautical', 'astronomical'] as const).map((endOf) => {
      const { from_ms, to_ms } = spanOf(darkOf(shore, '2026-07-20', zone, endOf));
      return to_ms - from_ms;
    });
    expect(lengths_ms).toEqual([...lengths_ms].sort((a, b) => b - a));
    expect(new Set(lengths_ms).size).toBe(3);
  });

  test('unless told otherwise, dark is from the end of astronomical twilight', () => {
    expect(darkOf(shore, '2026-07-20', zone)).toEqual(
      darkOf(shore, '2026-07-20', zone, 'astronomical'),
    );
  });
});

describe('nights of high latitude', () => {
  test('the bright night of 55 north in June is never dark, and the Moon is still told', () => {
    const tonight = darkOf({ latitude_deg: 55, longitude_deg: 12 }, '2026-06-21', 'Europe/Oslo');
    expect(tonight.dark).toEqual({ kind: 'never' });
    expect(tonight.moonless).toEqual([]);
    expect(tonight.moonAtMiddle.waxing).toBe(true);
  });

  test('where the Sun stays far below all day, the dark runs from noon to noon', () => {
    const night = parseNight('2026-12-21');
    if (night === null) throw new Error('21 December exists');
    const { from_ms, to_ms } = nightBounds(night, 'UTC');
    const tonight = darkness({ latitude_deg: 89, longitude_deg: 0 }, from_ms, to_ms);
    expect(tonight.dark).toEqual({ kind: 'dark', from_ms, to_ms });
  });
});
