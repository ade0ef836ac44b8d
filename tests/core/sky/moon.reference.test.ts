import * as suncalc from 'suncalc';
import { describe, expect, test } from 'vitest';
import { moonAt, moonTimes } from '../../../src/core/sky/moon.ts';
import { solarPosition } from '../../../src/core/sky/solar-position.ts';

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/**
 * Seconds by which the uniform time of the tables (TD) was ahead of clock time; from memory, good to
 * a second or two. The Moon moves 0.0005 degrees in that.
 */
const tableTimeAhead_ms = { in1977: 48_000, in1992: 59_000, in2044: 80_000 };

const greenwich = { latitude_deg: 51.48, longitude_deg: 0 };

// Meeus, Astronomical Algorithms (2nd ed. 1998), examples 47.a and 48.a: 1992 April 12.0 TD.
describe('the Moon of 12 April 1992', () => {
  const at_ms = Date.UTC(1992, 3, 12) - tableTimeAhead_ms.in1992;

  test('stands overhead at the place below its published right ascension and declination', () => {
    const below = {
      latitude_deg: 13.768368,
      longitude_deg: 134.68847 - solarPosition(at_ms).siderealTime_deg,
    };
    // Overhead there is no refraction, and next to no parallax. 0.02 degrees cover the Earth's
    // flattening (0.003), the seconds of table time (0.0005 each) and the two theories.
    expect(moonAt(below, at_ms).altitude_deg).toBeGreaterThan(89.98);
  });

  // Published share 0.6786 to four digits; another theory of the Moon may differ in the last.
  test('is lit to 0.6786 and waxing', () => {
    const { illuminatedShare, waxing } = moonAt(greenwich, at_ms);
    expect(Math.abs(illuminatedShare - 0.6786)).toBeLessThan(0.0002);
    expect(waxing).toBe(true);
  });
});

describe('new, half and full moons', () => {
  // Published to the minute in 2026 (quoted in a public test file), to the second in 1977 (Meeus
  // 1998, example 49.a). The Moon passes from waning to waxing at new moon, back at full moon.
  test.each([
    ['1977-02-18T03:37:42Z', tableTimeAhead_ms.in1977],
    ['2026-02-17T12:01Z', 0],
    ['2026-08-12T17:37Z', 0],
  ])('the Moon is dark at %s and begins to wax there', (time, ahead_ms) => {
    const at_ms = Date.parse(time) - ahead_ms;
    expect(moonAt(greenwich, at_ms).illuminatedShare).toBeLessThan(0.003);
    expect(moonAt(greenwich, at_ms - 2 * MINUTE_MS).waxing).toBe(false);
    expect(moonAt(greenwich, at_ms + 2 * MINUTE_MS).waxing).toBe(true);
  });

  test.each(['2026-03-03T11:38Z', '2026-08-28T04:18Z'])(
    'the Moon is full at %s and begins to wane there',
    (time) => {
      const at_ms = Date.parse(time);
      expect(moonAt(greenwich, at_ms).illuminatedShare).toBeGreaterThan(0.997);
      expect(moonAt(greenwich, at_ms - 2 * MINUTE_MS).waxing).toBe(true);
      expect(moonAt(greenwich, at_ms + 2 * MINUTE_MS).waxing).toBe(false);
    },
  );

  // Meeus 1998, example 49.b: JDE 2467636.49186. At the quarter the Moon stands 90 degrees from the
  // Sun as seen from here, which leaves it lit a little over half: (1 + 1/390) / 2, by the ratio of
  // the distances.
  test('the last quarter of January 2044 is half lit and waning', () => {
    const at_ms = (2_467_636.49186 - 2_440_587.5) * DAY_MS - tableTimeAhead_ms.in2044;
    const { illuminatedShare, waxing } = moonAt(greenwich, at_ms);
    expect(Math.abs(illuminatedShare - 0.5013)).toBeLessThan(0.0005);
    expect(waxing).toBe(false);
  });
});

/** Places from 60 S to 60 N on days from 2000 to 2050, by a fixed rule. */
const samples = Array.from({ length: 200 }, (_, index) => ({
  place: {
    latitude_deg: ((index * 74.16) % 120) - 60,
    longitude_deg: ((index * 137.508) % 360) - 180,
  },
  midnight_ms: Date.UTC(2000, 0, 1 + index * 91),
}));

// Truth: suncalc 2.0.2, which states 0.09 degrees for places and 15 seconds for rise and set, checked
// by its authors against JPL Horizons and USNO.
describe('the Moon over 200 places from 60 S to 60 N', () => {
  test('stands where a second library puts it, within the tenth of a degree it states', () => {
    let compared = 0;
    for (const { place, midnight_ms } of samples) {
      const ours = moonAt(place, midnight_ms);
      const at = new Date(midnight_ms);
      const theirs = suncalc.getMoonPosition(at, place.latitude_deg, place.longitude_deg);
      // Below the horizon the two carry refraction on in different ways.
      if (theirs.altitude < 1) continue;
      compared++;
      expect(Math.abs(ours.altitude_deg - theirs.altitude)).toBeLessThan(0.09);
      const aside_deg = ours.azimuth_deg - theirs.azimuth;
      const onSky_deg = Math.sin((aside_deg * Math.PI) / 180) * (180 / Math.PI);
      const shrink = Math.cos((ours.altitude_deg * Math.PI) / 180);
      expect(Math.abs(onSky_deg * shrink)).toBeLessThan(0.09);
      const lit = suncalc.getMoonIllumination(at);
      expect(Math.abs(ours.illuminatedShare - lit.fraction)).toBeLessThan(0.001);
      expect(ours.waxing).toBe(lit.waxing);
    }
    expect(compared).toBeGreaterThan(80);
  });

  test('rises and sets when a second library says, within the 15 seconds it states', () => {
    let compared = 0;
    const onlyOne: string[] = [];
    for (const { place, midnight_ms } of samples) {
      // The other library looks at one UTC day, so this is asked of the same 24 hours.
      const ours = moonTimes(place, midnight_ms, midnight_ms + DAY_MS);
      const theirs = suncalc.getMoonTimes(
        new Date(midnight_ms),
        place.latitude_deg,
        place.longitude_deg,
      );
      for (const [own, other] of [
        [ours.rise, theirs.rise],
        [ours.set, theirs.set],
      ] as const) {
        if (own.kind === 'at' && other instanceof Date) {
          compared++;
          expect(Math.abs(own.time_ms - other.getTime())).toBeLessThan(15_000);
        } else if (own.kind === 'at' || other instanceof Date) {
          onlyOne.push(`${JSON.stringify(place)} on ${midnight_ms}: ${own.kind}`);
        }
      }
    }
    expect(onlyOne).toEqual([]);
    expect(compared).toBeGreaterThan(370);
  });
});
