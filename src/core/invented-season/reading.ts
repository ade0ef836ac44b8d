import type { Rain, Sound, Surface, Wind } from '../domain/visit.ts';
import type { Random } from '../numerics/random.ts';
import type { Listening } from './digging.ts';
import type { Volunteer } from './volunteers.ts';

/**
 * What a person writes of a hollow: its depth as they see it, against where they draw the lines.
 * `dark` readings scatter more than those at dawn. The lines (1, 3 and 7.5 cm) are invented.
 */
export function readSurface(
  random: Random,
  by: Volunteer,
  hollow_cm: number,
  dark: boolean,
): Surface {
  const scatter = by.scatter * (dark ? 1.25 : 1);
  const ripple_cm = Math.abs(random.normal(0, 0.28 + 0.35 * scatter));
  const seen_cm = (hollow_cm + ripple_cm) * by.seesMore * Math.exp(random.normal(0, scatter));
  if (seen_cm < 1) return 'smooth';
  if (seen_cm < 3) return 'dip';
  return seen_cm < 7.5 ? 'depression' : 'caved';
}

/**
 * What a person writes of ten minutes' listening. Wind in the tube and feet on the beach sound
 * like scratching, to the untried most of all. The lines (0.3, 2.2 and 9 a minute) are invented.
 */
export function readSound(random: Random, by: Volunteer, heard: Listening, wind_ms: number): Sound {
  const feet = random.chance(by.imagines * (1 + wind_ms / 8)) ? random.gamma(1.1, 1.2) : 0;
  const real = heard.scratch_per_min * by.hearsMore * Math.exp(random.normal(0, by.scatter));
  const rate = real + feet;
  if (rate < 0.3) return 'quiet';
  if (rate < 2.2) return 'occasional';
  return rate < 9 ? 'steady' : 'waterfall';
}

/** Wind as people write it down; the lines are invented. */
export function readWind(wind_ms: number): Wind {
  if (wind_ms < 3.5) return 'calm';
  return wind_ms < 9 ? 'breeze' : 'strong';
}

/** Rain of half a night as people write it down. */
export function readRain(rain_mm: number): Rain {
  if (rain_mm < 0.3) return 'none';
  return rain_mm < 8 ? 'light' : 'heavy';
}
