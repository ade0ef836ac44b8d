import type { Measured } from './day-means.ts';

/**
 * What a date is usually like: level_c + cosine_c cos(w day) + sine_c sin(w day), w = a turn a
 * year.
 */
export interface SeasonalNormal {
  readonly level_c: number;
  readonly cosine_c: number;
  readonly sine_c: number;
}

/** What is expected of a year before anything was measured, and how far it may be off (SD). */
export interface ExpectedYear {
  readonly normal: SeasonalNormal;
  readonly levelSd_c: number;
  readonly waveSd_c: number;
}

/** Radians of the year in a day (days since 1970-01-01; within a day of the calendar). */
export const yearly_rad = (2 * Math.PI) / 365.2425;

/** How much a day differs from its normal (SD), and how long such a difference lasts (guesses). */
const WEATHER_SD_C = 1;
export const weatherMemory_days = 10;

/** The usual temperature of a day. */
export function normalOn({ level_c, cosine_c, sine_c }: SeasonalNormal, day: number): number {
  return level_c + cosine_c * Math.cos(yearly_rad * day) + sine_c * Math.sin(yearly_rad * day);
}

/**
 * What a year is like at a latitude (degrees, north positive; null = not known). Warmest at the
 * start of August in the north and of February in the south, by 0.2 C for each degree of latitude
 * over its mean (guess, from memory of coastal climates). Where the latitude is not known the wave
 * may go either way, with the SD of 3 C between dates of a year seen in sand at nest depth (Chagos,
 * Stokes et al. 2024 J Therm Biol 125:103965).
 */
export function expectedYear(latitude_deg: number | null): ExpectedYear {
  const swing_c = latitude_deg === null ? 0 : Math.min(9, 0.2 * Math.abs(latitude_deg));
  const warmest = (latitude_deg ?? 0) >= 0 ? 213 : 32;
  return {
    normal: {
      level_c: 27,
      cosine_c: swing_c * Math.cos(yearly_rad * warmest),
      sine_c: swing_c * Math.sin(yearly_rad * warmest),
    },
    levelSd_c: 5,
    waveSd_c: latitude_deg === null ? 3 : 1.5,
  };
}

/**
 * The seasonal normal that fits what was measured, drawn towards what is expected where few days
 * speak: a harmonic by ridge regression. One season alone cannot part its own temper from the usual
 * year; both are then in the level, which is what the rest of that season needs.
 *
 * Neighbouring days say nearly the same: a series with a memory of m days tells of its mean as one
 * day in 2 m would.
 */
export function fitSeasonalNormal(measured: Measured, expected: ExpectedYear): SeasonalNormal {
  const trust = 1 / (WEATHER_SD_C ** 2 * 2 * weatherMemory_days);
  const { normal, levelSd_c, waveSd_c } = expected;
  // Normal equations of the departure from what is expected; x = (1, cos, sin), symmetric.
  let [ll, lc, ls, cc, cs, ss] = [
    1 / levelSd_c ** 2,
    0,
    0,
    1 / waveSd_c ** 2,
    0,
    1 / waveSd_c ** 2,
  ];
  let [l, c, s] = [0, 0, 0];
  for (const [day, value_c] of measured) {
    const cosine = Math.cos(yearly_rad * day);
    const sine = Math.sin(yearly_rad * day);
    const departure = trust * (value_c - normalOn(normal, day));
    ll += trust;
    lc += trust * cosine;
    ls += trust * sine;
    cc += trust * cosine * cosine;
    cs += trust * cosine * sine;
    ss += trust * sine * sine;
    l += departure;
    c += departure * cosine;
    s += departure * sine;
  }
  // Cramer's rule; the ridge keeps the determinant well above nil.
  const [a, b, d] = [cc * ss - cs * cs, ls * cs - lc * ss, lc * cs - ls * cc];
  const determinant = ll * a + lc * b + ls * d;
  const [e, f, g] = [ll * ss - ls * ls, lc * ls - ll * cs, ll * cc - lc * lc];
  return {
    level_c: normal.level_c + (a * l + b * c + d * s) / determinant,
    cosine_c: normal.cosine_c + (b * l + e * c + f * s) / determinant,
    sine_c: normal.sine_c + (d * l + f * c + g * s) / determinant,
  };
}
