import { asin_deg, atan2_deg, cos_deg, sin_deg, turn_deg } from '../numerics/angle.ts';

const DAY_MS = 86_400_000;
const CENTURY_DAYS = 36_525;
/** 2000-01-01 12:00, the standard epoch J2000 (Julian date 2451545). */
const J2000_MS = Date.UTC(2000, 0, 1, 12);

/** Where the Sun stands among the stars, seen from the Earth's centre, all in degrees. */
export interface SolarPosition {
  /** Apparent longitude along the ecliptic, 0 up to 360: 0 at the March equinox, 90 in June. */
  readonly longitude_deg: number;
  readonly rightAscension_deg: number;
  readonly declination_deg: number;
  /** The stars' hour angle at Greenwich (apparent sidereal time), 0 up to 360. */
  readonly siderealTime_deg: number;
}

/**
 * Apparent place of the Sun, good to 0.01 degrees for some centuries around 2000.
 * Clock time is taken for the uniform time of the theory; they differ by about 70 seconds, in which
 * the Sun moves 0.0008 degrees.
 * Source: Meeus, Astronomical Algorithms (2nd ed. 1998), chapter 25 (low accuracy); obliquity from
 * chapter 22, sidereal time from chapter 12. The coefficients are from memory of the book, and are
 * held to its printed example and to other authorities by the reference tests.
 */
export function solarPosition(at_ms: number): SolarPosition {
  const days = (at_ms - J2000_MS) / DAY_MS;
  const t = days / CENTURY_DAYS;

  const meanLongitude_deg = 280.46646 + t * (36_000.76983 + t * 0.0003032);
  const meanAnomaly_deg = 357.52911 + t * (35_999.05029 - t * 0.0001537);
  const equationOfCentre_deg =
    (1.914602 - t * (0.004817 + t * 0.000014)) * sin_deg(meanAnomaly_deg) +
    (0.019993 - t * 0.000101) * sin_deg(2 * meanAnomaly_deg) +
    0.000289 * sin_deg(3 * meanAnomaly_deg);

  // The Moon's node: the Earth's axis nods with it (nutation). 0.00569 is the Sun's aberration.
  const node_deg = 125.04 - t * 1934.136;
  const nutation_deg = -0.00478 * sin_deg(node_deg);
  const longitude_deg = meanLongitude_deg + equationOfCentre_deg - 0.00569 + nutation_deg;
  const obliquity_deg = 23.4392911 - t * 0.0130042 + 0.00256 * cos_deg(node_deg);

  const sinLongitude = sin_deg(longitude_deg);
  const cosObliquity = cos_deg(obliquity_deg);
  return {
    longitude_deg: turn_deg(longitude_deg),
    rightAscension_deg: turn_deg(atan2_deg(cosObliquity * sinLongitude, cos_deg(longitude_deg))),
    declination_deg: asin_deg(sin_deg(obliquity_deg) * sinLongitude),
    siderealTime_deg: turn_deg(
      280.46061837 + 360.98564736629 * days + t * t * 0.000387933 + nutation_deg * cosObliquity,
    ),
  };
}
