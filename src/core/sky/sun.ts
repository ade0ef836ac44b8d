import {
  asin_deg,
  atan2_deg,
  cos_deg,
  shortTurn_deg,
  sin_deg,
  turn_deg,
} from '../numerics/angle.ts';
import { crossingBetween, type Crossing, type Span } from './crossing.ts';
import { possiblePlace, type Place } from './place.ts';
import { solarPosition } from './solar-position.ts';

const DAY_MS = 86_400_000;
const HALF_DAY_MS = DAY_MS / 2;

/**
 * Altitude of the Sun's centre that marks each moment, degrees, refraction left out. Sunrise and
 * sunset: upper edge on a sea horizon, 50 minutes of arc for the Sun's radius and the bending of
 * light there. Source: the conventions of the US Naval Observatory and of Meeus; -0.8333 as quoted
 * in public test suites, the twilights from memory.
 */
export const sunLevel_deg = {
  horizon: -50 / 60,
  civil: -6,
  nautical: -12,
  astronomical: -18,
} as const;

/**
 * The Sun through one night, in order. A dusk is the evening end of that twilight, a dawn its
 * beginning in the morning. `always up`: the Sun stays above that level the whole night.
 */
export interface SunTimes {
  readonly sunset: Crossing;
  readonly civilDusk: Crossing;
  readonly nauticalDusk: Crossing;
  readonly astronomicalDusk: Crossing;
  /** When the Sun is lowest. */
  readonly solarMidnight_ms: number;
  readonly astronomicalDawn: Crossing;
  readonly nauticalDawn: Crossing;
  readonly civilDawn: Crossing;
  readonly sunrise: Crossing;
}

/**
 * Where the Sun's centre stands: altitude above the horizon without refraction, and azimuth
 * clockwise from true north, degrees. Good to about 0.01 degrees.
 */
export function sunAt(place: Place, at_ms: number): { altitude_deg: number; azimuth_deg: number } {
  const { latitude_deg } = possiblePlace(place);
  const { declination_deg } = solarPosition(at_ms);
  const hourAngle_deg = solarHourAngle_deg(place, at_ms);
  const west = cos_deg(declination_deg) * sin_deg(hourAngle_deg);
  const south =
    cos_deg(declination_deg) * cos_deg(hourAngle_deg) * sin_deg(latitude_deg) -
    sin_deg(declination_deg) * cos_deg(latitude_deg);
  return {
    altitude_deg: sunAltitude_deg(place, at_ms),
    azimuth_deg: turn_deg(180 + atan2_deg(west, south)),
  };
}

/**
 * Sunset to sunrise of the night that runs from local noon to local noon (`nightBounds` gives
 * both). The night meant is the one whose solar midnight lies nearest the middle of the two, so
 * that sunset always comes before sunrise, also where the clocks are hours away from the Sun.
 * Right to a few seconds as conventions go; real refraction moves sunset by up to a minute or so.
 */
export function sunTimes(place: Place, nightFrom_ms: number, nightTo_ms: number): SunTimes {
  possiblePlace(place);
  const midnight_ms = solarMidnight_ms(place, nightFrom_ms, nightTo_ms);
  const altitude_deg = (at_ms: number) => sunAltitude_deg(place, at_ms);
  const dusk = (level_deg: number) =>
    crossingBetween(altitude_deg, level_deg, midnight_ms - HALF_DAY_MS, midnight_ms);
  const dawn = (level_deg: number) =>
    crossingBetween(altitude_deg, level_deg, midnight_ms, midnight_ms + HALF_DAY_MS);
  return {
    sunset: dusk(sunLevel_deg.horizon),
    civilDusk: dusk(sunLevel_deg.civil),
    nauticalDusk: dusk(sunLevel_deg.nautical),
    astronomicalDusk: dusk(sunLevel_deg.astronomical),
    solarMidnight_ms: Math.round(midnight_ms),
    astronomicalDawn: dawn(sunLevel_deg.astronomical),
    nauticalDawn: dawn(sunLevel_deg.nautical),
    civilDawn: dawn(sunLevel_deg.civil),
    sunrise: dawn(sunLevel_deg.horizon),
  };
}

/** Sunset of each night, in the order given; the same as `sunTimes` says, without the rest. */
export function sunsetByNight(place: Place, nights: readonly Span[]): Crossing[] {
  possiblePlace(place);
  const altitude_deg = (at_ms: number) => sunAltitude_deg(place, at_ms);
  return nights.map(({ from_ms, to_ms }) => {
    const midnight_ms = solarMidnight_ms(place, from_ms, to_ms);
    const noon_ms = midnight_ms - HALF_DAY_MS;
    return crossingBetween(altitude_deg, sunLevel_deg.horizon, noon_ms, midnight_ms);
  });
}

/**
 * The solar midnight nearest the middle of two noons. Solar noon is taken as twelve hours away:
 * it never strays more than 15 seconds from that, in which the Sun's altitude hardly moves.
 */
function solarMidnight_ms(place: Place, from_ms: number, to_ms: number): number {
  let at_ms = (from_ms + to_ms) / 2;
  // The Sun's day differs from 24 hours by 30 seconds at most: the second step leaves a millisecond.
  for (let step = 0; step < 2; step++) {
    at_ms += (shortTurn_deg(180 - solarHourAngle_deg(place, at_ms)) / 360) * DAY_MS;
  }
  return at_ms;
}

/** How far west of the meridian the Sun is, degrees; 15 an hour, some whole turns off. */
function solarHourAngle_deg(place: Place, at_ms: number): number {
  const { siderealTime_deg, rightAscension_deg } = solarPosition(at_ms);
  return siderealTime_deg + place.longitude_deg - rightAscension_deg;
}

/** Altitude of the Sun's centre without refraction. Source: Meeus 1998, equation 13.6. */
function sunAltitude_deg(place: Place, at_ms: number): number {
  const { siderealTime_deg, rightAscension_deg, declination_deg } = solarPosition(at_ms);
  return asin_deg(
    sin_deg(place.latitude_deg) * sin_deg(declination_deg) +
      cos_deg(place.latitude_deg) *
        cos_deg(declination_deg) *
        cos_deg(siderealTime_deg + place.longitude_deg - rightAscension_deg),
  );
}
