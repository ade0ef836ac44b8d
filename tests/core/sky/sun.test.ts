import { describe, expect, test } from 'vitest';
import { formatInstant } from '../../../src/core/domain/instant.ts';
import { addNights, nightBounds, parseNight } from '../../../src/core/domain/night.ts';
import type { Crossing } from '../../../src/core/sky/crossing.ts';
import type { Place } from '../../../src/core/sky/place.ts';
import { sunAt, sunsetByNight, sunTimes } from '../../../src/core/sky/sun.ts';

const HOUR_MS = 3_600_000;

function boundsOf(date: string, zone: string) {
  const night = parseNight(date);
  if (night === null) throw new Error(`no such night: ${date}`);
  return nightBounds(night, zone);
}

function sunOf(place: Place, date: string, zone: string) {
  const { from_ms, to_ms } = boundsOf(date, zone);
  return sunTimes(place, from_ms, to_ms);
}

function at_ms(crossing: Crossing): number {
  if (crossing.kind !== 'at') throw new Error(`a time was expected, not ${crossing.kind}`);
  return crossing.time_ms;
}

const up = { kind: 'always up' };
const down = { kind: 'always down' };

// An invented shore, at a latitude where sea turtles nest.
const shore = { latitude_deg: 28, longitude_deg: -80.5 };
const zone = 'America/New_York';

describe('a night on a nesting beach', () => {
  test('sunset, three dusks, three dawns and sunrise follow each other from noon to noon', () => {
    const { from_ms, to_ms } = boundsOf('2026-07-20', zone);
    const sun = sunTimes(shore, from_ms, to_ms);
    const inOrder = [
      from_ms,
      at_ms(sun.sunset),
      at_ms(sun.civilDusk),
      at_ms(sun.nauticalDusk),
      at_ms(sun.astronomicalDusk),
      sun.solarMidnight_ms,
      at_ms(sun.astronomicalDawn),
      at_ms(sun.nauticalDawn),
      at_ms(sun.civilDawn),
      at_ms(sun.sunrise),
      to_ms,
    ];
    expect(inOrder).toEqual([...inOrder].sort((a, b) => a - b));
  });

  test('the Sun sets north of west in July and south of west in December', () => {
    const summer = sunAt(shore, at_ms(sunOf(shore, '2026-07-20', zone).sunset));
    const winter = sunAt(shore, at_ms(sunOf(shore, '2026-12-20', zone).sunset));
    expect(summer.azimuth_deg).toBeGreaterThan(280);
    expect(summer.azimuth_deg).toBeLessThan(300);
    expect(winter.azimuth_deg).toBeGreaterThan(240);
    expect(winter.azimuth_deg).toBeLessThan(250);
  });

  test('a place east of Greenwich and ahead of UTC has its own evening, not the one before', () => {
    const reef = { latitude_deg: -24, longitude_deg: 152 };
    const sunset_ms = at_ms(sunOf(reef, '2026-01-15', 'Australia/Brisbane').sunset);
    expect(formatInstant(sunset_ms, 'Australia/Brisbane')).toMatch(/^2026-01-15T18:/);
  });

  test('a place west of the date line keeping the date of the east has the evening of its own date', () => {
    const island = { latitude_deg: -21, longitude_deg: -175 };
    const sunset_ms = at_ms(sunOf(island, '2026-01-15', 'Pacific/Tongatapu').sunset);
    expect(formatInstant(sunset_ms, 'Pacific/Tongatapu')).toMatch(/^2026-01-15T19:/);
  });
});

describe('nights on which the clocks change', () => {
  const evenings = ['2026-03-06', '2026-03-07', '2026-03-08'];

  test('the spring night lasts 23 hours by noon and its sunrise comes an hour later by the clock', () => {
    const { from_ms, to_ms } = boundsOf('2026-03-07', zone);
    expect(to_ms - from_ms).toBe(23 * HOUR_MS);
    const sunrises = evenings.map((date) =>
      formatInstant(at_ms(sunOf(shore, date, zone).sunrise), zone).slice(0, 13),
    );
    expect(sunrises).toEqual(['2026-03-07T06', '2026-03-08T07', '2026-03-09T07']);
  });

  test('the autumn night lasts 25 hours by noon and still has one sunset and one sunrise', () => {
    const { from_ms, to_ms } = boundsOf('2026-10-31', zone);
    expect(to_ms - from_ms).toBe(25 * HOUR_MS);
    const sun = sunTimes(shore, from_ms, to_ms);
    expect(formatInstant(at_ms(sun.sunset), zone)).toMatch(/^2026-10-31T18:/);
    expect(formatInstant(at_ms(sun.sunrise), zone)).toMatch(/^2026-11-01T06:/);
  });

  test('the Sun takes no notice: real time between sunsets stays near 24 hours', () => {
    for (const [first, second] of [
      ['2026-03-07', '2026-03-08'],
      ['2026-10-31', '2026-11-01'],
    ] as const) {
      const apart_ms =
        at_ms(sunOf(shore, second, zone).sunset) - at_ms(sunOf(shore, first, zone).sunset);
      expect(Math.abs(apart_ms - 24 * HOUR_MS)).toBeLessThan(90_000);
    }
  });
});

describe('where the Sun does not set or rise', () => {
  const north = { latitude_deg: 69, longitude_deg: 19 };
  const northZone = 'Europe/Oslo';

  test('at 69 north in midsummer the Sun is up all night, and so above every twilight', () => {
    const sun = sunOf(north, '2026-06-21', northZone);
    expect([sun.sunset, sun.civilDusk, sun.nauticalDusk, sun.astronomicalDusk]).toEqual([
      up,
      up,
      up,
      up,
    ]);
    expect([sun.sunrise, sun.civilDawn]).toEqual([up, up]);
  });

  test('at 69 north in midwinter the Sun stays down, while each twilight still ends and begins', () => {
    const sun = sunOf(north, '2026-12-21', northZone);
    expect([sun.sunset, sun.sunrise]).toEqual([down, down]);
    expect(at_ms(sun.civilDusk)).toBeLessThan(at_ms(sun.nauticalDusk));
    expect(at_ms(sun.nauticalDusk)).toBeLessThan(at_ms(sun.astronomicalDusk));
    expect(at_ms(sun.astronomicalDawn)).toBeLessThan(at_ms(sun.civilDawn));
  });

  test('at 55 north in midsummer the Sun sets but it never gets fully dark', () => {
    const sun = sunOf({ latitude_deg: 55, longitude_deg: 12 }, '2026-06-21', 'Europe/Copenhagen');
    expect(sun.sunset.kind).toBe('at');
    expect(sun.astronomicalDusk).toEqual(up);
    expect(sun.astronomicalDawn).toEqual(up);
  });

  test('at the pole the Sun is up in one half of the year and down in the other', () => {
    const pole = { latitude_deg: 90, longitude_deg: 0 };
    expect(sunOf(pole, '2026-06-01', 'UTC').sunset).toEqual(up);
    expect(sunOf(pole, '2026-12-01', 'UTC').sunset).toEqual(down);
  });
});

describe('sunset of many nights', () => {
  test('a season of sunsets is the same as asking night by night', () => {
    const first = parseNight('2026-05-01');
    if (first === null) throw new Error('1 May exists');
    const nights = Array.from({ length: 120 }, (_, k) => nightBounds(addNights(first, k), zone));
    expect(sunsetByNight(shore, nights)).toEqual(
      nights.map(({ from_ms, to_ms }) => sunTimes(shore, from_ms, to_ms).sunset),
    );
  });
});

describe('a place that cannot be', () => {
  test('a latitude past the pole is refused by name and value', () => {
    const nowhere = { latitude_deg: 91, longitude_deg: 0 };
    expect(() => sunTimes(nowhere, 0, 24 * HOUR_MS)).toThrow('latitude lies from -90 to 90');
    expect(() => sunAt(nowhere, 0)).toThrow('not 91');
  });

  test('a longitude that is not a number is refused', () => {
    expect(() => sunsetByNight({ latitude_deg: 0, longitude_deg: NaN }, [])).toThrow('not NaN');
  });
});
