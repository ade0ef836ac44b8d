import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sunAt, sunLevel_deg, sunTimes } from '../../../src/core/sky/sun.ts';

const seed = 20260720;
const DAY_MS = 86_400_000;

const placeAndNight = fc.record({
  place: fc.record({
    latitude_deg: fc.double({ min: -89, max: 89, noNaN: true }),
    longitude_deg: fc.double({ min: -180, max: 180, noNaN: true }),
  }),
  // Any noon from 1970 to 2100, kept by clocks up to half a day away from the Sun.
  from_ms: fc.integer({ min: 0, max: Date.UTC(2100, 0, 1) }),
});

describe('the Sun anywhere, on any night', () => {
  test('the deeper the twilight, the later its dusk and the earlier its dawn', () => {
    fc.assert(
      fc.property(placeAndNight, ({ place, from_ms }) => {
        const sun = sunTimes(place, from_ms, from_ms + DAY_MS);
        const midnight_ms = sun.solarMidnight_ms;
        const dusks = [sun.sunset, sun.civilDusk, sun.nauticalDusk, sun.astronomicalDusk];
        const dawns = [sun.sunrise, sun.civilDawn, sun.nauticalDawn, sun.astronomicalDawn];
        for (const [crossings, way] of [
          [dusks, 1],
          [dawns, -1],
        ] as const) {
          // A Sun that is always down is past the level since noon; one always up, not by midnight.
          const from_midnight_ms = crossings.map((crossing) => {
            if (crossing.kind === 'always down') return -DAY_MS;
            if (crossing.kind === 'always up') return DAY_MS;
            return way * (crossing.time_ms - midnight_ms);
          });
          expect(from_midnight_ms).toEqual([...from_midnight_ms].sort((a, b) => a - b));
          for (const crossing of crossings) {
            if (crossing.kind !== 'at') continue;
            const before_ms = -way * (crossing.time_ms - midnight_ms);
            expect(before_ms).toBeGreaterThanOrEqual(-1);
            expect(before_ms).toBeLessThanOrEqual(DAY_MS / 2 + 1);
          }
        }
      }),
      { seed, numRuns: 300 },
    );
  });

  test('at each moment given, the Sun stands at the level that defines it', () => {
    fc.assert(
      fc.property(placeAndNight, ({ place, from_ms }) => {
        const sun = sunTimes(place, from_ms, from_ms + DAY_MS);
        for (const [crossing, level_deg] of [
          [sun.sunset, sunLevel_deg.horizon],
          [sun.civilDusk, sunLevel_deg.civil],
          [sun.nauticalDawn, sunLevel_deg.nautical],
          [sun.astronomicalDawn, sunLevel_deg.astronomical],
          [sun.sunrise, sunLevel_deg.horizon],
        ] as const) {
          if (crossing.kind !== 'at') continue;
          const { altitude_deg } = sunAt(place, crossing.time_ms);
          expect(Math.abs(altitude_deg - level_deg)).toBeLessThan(1e-5);
        }
      }),
      { seed, numRuns: 300 },
    );
  });

  test('the night found is the one around the middle of the two noons', () => {
    fc.assert(
      fc.property(placeAndNight, ({ place, from_ms }) => {
        const { solarMidnight_ms } = sunTimes(place, from_ms, from_ms + DAY_MS);
        expect(Math.abs(solarMidnight_ms - (from_ms + DAY_MS / 2))).toBeLessThan(
          DAY_MS / 2 + 60_000,
        );
      }),
      { seed, numRuns: 300 },
    );
  });
});
