import { describe, expect, test } from 'vitest';
import { solarPosition } from '../../../src/core/sky/solar-position.ts';

/** Epoch milliseconds of a Julian date. JD 2440587.5 is 1970-01-01 00:00. */
const julian_ms = (days: number) => (days - 2_440_587.5) * 86_400_000;

// The theory promises 0.01 degrees (Meeus 1998, chapter 25).
const promised_deg = 0.01;

describe('the place of the Sun', () => {
  // Meeus, Astronomical Algorithms (2nd ed. 1998), example 25.a, by the same low-accuracy theory: the
  // printed values must come out to the last digits. Declination as printed in the book's example.
  test('on 13 October 1992 is the one worked out in the book of the theory', () => {
    const sun = solarPosition(julian_ms(2_448_908.5));
    expect(Math.abs(sun.rightAscension_deg - 198.38083)).toBeLessThan(2e-5);
    expect(Math.abs(sun.declination_deg - -7.78507)).toBeLessThan(2e-5);
  });

  // The same instant by the full theory, example 25.b: 13h 13m 30.749s, -7 deg 47' 01.74".
  test('on 13 October 1992 is within a hundredth of a degree of the full theory', () => {
    const sun = solarPosition(julian_ms(2_448_908.5));
    const rightAscension_deg = 15 * (13 + 13 / 60 + 30.749 / 3600);
    expect(Math.abs(sun.rightAscension_deg - rightAscension_deg)).toBeLessThan(promised_deg);
    expect(Math.abs(sun.declination_deg + 7 + 47 / 60 + 1.74 / 3600)).toBeLessThan(promised_deg);
  });

  // Reda & Andreas 2004, Solar Energy 76:577-589 (NREL/TP-560-34302), worked example.
  test('on 17 October 2003 agrees with the solar position algorithm of NREL', () => {
    const sun = solarPosition(Date.parse('2003-10-17T12:30:30-07:00'));
    expect(Math.abs(sun.rightAscension_deg - 202.22741)).toBeLessThan(promised_deg);
    expect(Math.abs(sun.declination_deg - -9.31434)).toBeLessThan(promised_deg);
  });

  // US Naval Observatory, seasons of 2024 to the minute: half a minute is 0.0004 degrees of longitude.
  test.each([
    ['2024-03-20T03:06Z', 0],
    ['2024-06-20T20:51Z', 90],
    ['2024-09-22T12:44Z', 180],
    ['2024-12-21T09:21Z', 270],
  ])('at the turn of the season %s stands at longitude %i', (time, longitude_deg) => {
    const away_deg = solarPosition(Date.parse(time)).longitude_deg - longitude_deg;
    expect(Math.abs(away_deg - 360 * Math.round(away_deg / 360))).toBeLessThan(promised_deg);
  });
});
